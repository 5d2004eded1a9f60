/** A whole program as text of the language. */

import { named } from "./facts.ts";
import { amountText, type Figure, figureText } from "./figure.ts";
import type { OrderFact, Program } from "./program.ts";
import { block, libraryText, syringeName } from "./write-library.ts";
import { stepsOf } from "./write-steps.ts";

export interface Written {
  text: string;
  /** Which of the steps each action is, from 0. */
  stepOf: readonly number[];
  /** Line of the text, from 1, on which the first step stands. */
  firstStep: number;
}

const figureLine = (word: string, stated: Figure | undefined): string[] =>
  stated ? [`${word} ${figureText(stated)}`] : [];

function orderLines({ order, final, materials, stocks }: Program): string[] {
  const made = named(materials, final);
  const isBag = made.stock !== undefined;
  const kind = isBag ? named(stocks, made.stock!).container : "syringe";
  const [only, second] = order.doses;
  const doses = second
    ? order.doses.map(({ drug, figure }) => `additive ${drug} ${amountText(figure)} per ${final}`)
    : [`drug ${only!.drug}`, `dose ${doseText(order)} per ${final}`];
  const range = order.weight && `${figureText(order.weight.from)} to ${figureText(order.weight.to)}`;
  return [
    ...doses,
    ...(range ? [`weight ${range} in steps of ${figureText(order.weight!.step)}`] : []),
    ...(order.round ? [`round dose to nearest ${figureText(order.round)}`] : []),
    ...figureLine("maximum dose", order.maximum),
    ...(order.diluent ? [`diluent ${order.diluent}`] : []),
    ...figureLine("diluent-volume", order.diluentVolume),
    ...figureLine("final-volume", order.finalVolume),
    `method ${order.method}`,
    ...((made.count ?? 1) > 1 ? [`makes ${made.count} x ${final}`] : []),
    ...figureLine("overage", order.overage),
    "route intravenous",
    "access central",
    ...(kind === "syringe" ? ["use bolus", "infuse-over 20 min"] : ["use infusion", "infuse-over 4 h"]),
  ];
}

/** mg/kg is the figure in mg for each kg. */
function doseText({ doses: [only] }: OrderFact): string {
  const { figure, perKilogram } = only!;
  return perKilogram ? `${figureText({ ...figure, unit: figure.unit.split("/")[0]! })}/kg` : amountText(figure);
}

function preparationLines(program: Program): string[] {
  const { preparation, final, materials } = program;
  const isSyringe = named(materials, final).syringe !== undefined;
  return [
    `form ${isSyringe ? "solution-for-injection" : "solution-for-infusion"}`,
    ...preparation.concentrations.map(({ drug, figure }) => `concentration ${drug} ${amountText(figure)}`),
    ...figureLine("volume", preparation.volume),
    'use-within 4 h at room-temperature  source guide "table 7"',
    'appearance "clear, colourless, free of particles"',
  ];
}

export function written(program: Program): Written {
  const steps = stepsOf(program);
  const materials = program.materials.map(({ name, stock, syringe, count }) => {
    const item = stock ?? syringeName(syringe!);
    return `${name} ${count !== undefined && count > 1 ? `${count} x ` : count === 1 && stock ? "1 x " : ""}${item}`;
  });
  const before = [
    libraryText(program),
    "",
    "recipe prepared {",
    `  title  "${program.drugs.map(({ name }) => name.replaceAll("-", " ")).join(" with ")}"`,
    block("order", orderLines(program)).replace(/^/gm, "  "),
    block("materials", [...materials, ...steps.parts]).replace(/^/gm, "  "),
    "  steps {",
  ].join("\n");
  const after = [
    "  }",
    ...program.intermediates.map(({ name, in: holder, at }) =>
      block(`intermediate ${name}`, [`in ${holder}`, `at ${amountText(at)}`, "use same-session"]).replace(/^/gm, "  "),
    ),
    block(`preparation ${program.final}`, preparationLines(program)).replace(/^/gm, "  "),
    "}",
    "",
  ];
  return {
    text: [before, ...steps.lines.map((line) => `    ${line}`), ...after].join("\n"),
    stepOf: steps.stepOf,
    firstStep: before.split("\n").length + 1,
  };
}
