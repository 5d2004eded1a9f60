/** A whole program as text of the language. */

import { named } from "./facts.ts";
import { amountText, type Figure, figureText } from "./figure.ts";
import type { DoseFact, MaterialFact, Program, Row } from "./program.ts";
import { block, libraryText, setName, syringeName } from "./write-library.ts";
import { stepsOf, whenText } from "./write-steps.ts";

export interface Written {
  text: string;
  /** Which of the steps each action is, from 0. */
  stepOf: readonly number[];
}

const figureLine = (word: string, stated: Figure | undefined): string[] =>
  stated ? [`${word} ${amountText(stated)}`] : [];

const rowLine = (word: string, row: Row, more = ""): string =>
  `${word} ${figureText(row.figure)}${row.perKilogram ? "/kg" : ""}${more}${whenText(row.when)}`;

function orderLines({ order, final, materials, stocks }: Program): string[] {
  const made = named(materials, final);
  const isBag = made.stock !== undefined;
  const kind = isBag ? named(stocks, made.stock!).container : "syringe";
  const [only, second] = order.doses;
  const doses =
    second || order.targets
      ? order.doses.map((dose) => `additive ${dose.drug} ${doseText(dose)} per ${final}${whenText(dose.when)}`)
      : [
          `drug ${only!.drug}`,
          order.byConcentration ? `concentration ${amountText(only!.figure)}` : `dose ${doseText(only!)} per ${final}`,
        ];
  const { range, round, line } = order;
  const ends = range && `${figureText(range.from)} to ${figureText(range.to)}`;
  return [
    ...doses,
    ...(order.targets ?? []).map((target) => `target ${target.ion} ${figureText(target.figure)} per ${final}`),
    ...(range ? [`${range.of} ${ends} in steps of ${figureText(range.step)}`] : []),
    ...(round ? [`round dose ${round.way} ${amountText(round.to)}`] : []),
    ...figureLine("maximum dose", order.maximum),
    ...figureLine("minimum dose", order.minimum),
    ...(order.diluent ? [`diluent ${order.diluent}`] : []),
    ...(order.diluents ?? []).map(({ fluid, figure }) => `diluent ${fluid}${figure ? ` ${figureText(figure)}` : ""}`),
    ...(order.diluentVolumes ?? []).map((row) => rowLine("diluent-volume", row)),
    ...(order.finalVolume ? [rowLine("final-volume", order.finalVolume, line ? ` line ${line}` : "")] : []),
    `method ${order.method}`,
    ...((made.count ?? 1) > 1 ? [`makes ${made.count} x ${final}`] : []),
    ...figureLine("overage", order.overage),
    "route intravenous",
    "access central",
    ...(kind === "syringe" ? ["use bolus", "infuse-over 20 min"] : ["use infusion", "infuse-over 4 h"]),
  ];
}

/** mg/kg is the figure in mg for each kg. */
function doseText({ figure, perEach, bands }: DoseFact): string {
  const { value, unit, ...counted } = figure;
  const plain = perEach ? { ...figure, unit: unit.split("/")[0]! } : figure;
  const words = amountText({ ...counted, value, unit: plain.unit }).slice(figureText(plain).length);
  return `${figureText(plain)}${perEach ? `/${perEach}` : ""}${words}${bands ? ` banded by ${bands}` : ""}`;
}

function preparationLines(program: Program): string[] {
  const { preparation, final, materials } = program;
  const isSyringe = named(materials, final).syringe !== undefined;
  return [
    `form ${isSyringe ? "solution-for-injection" : "solution-for-infusion"}`,
    ...preparation.concentrations.map(
      (row) => `concentration ${row.drug} ${amountText(row.figure)}${whenText(row.when)}`,
    ),
    ...preparation.volumes.map((row) => rowLine("volume", row)),
    'use-within 4 h at room-temperature  source guide "table 7"',
    'appearance "clear, colourless, free of particles"',
  ];
}

function materialLine({ name, stock, syringe, set, device, count, when }: MaterialFact): string {
  const item = stock ?? device ?? (set ? setName(set) : syringeName(syringe!));
  const many = count !== undefined && (count > 1 || stock) ? `${count} x ` : "";
  return `${name} ${many}${item}${whenText(when)}`;
}

export function written(program: Program): Written {
  const steps = stepsOf(program);
  const materials = program.materials.map(materialLine);
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
      block(`intermediate ${name}`, [
        `in ${holder}`,
        ...at.map(({ drug, figure }) => `at ${at.length > 1 ? `${drug} ` : ""}${amountText(figure)}`),
        "use same-session",
      ]).replace(/^/gm, "  "),
    ),
    block(`preparation ${program.final}`, preparationLines(program)).replace(/^/gm, "  "),
    "}",
    "",
  ];
  return {
    text: [before, ...steps.lines.map((line) => `    ${line}`), ...after].join("\n"),
    stepOf: steps.stepOf,
  };
}
