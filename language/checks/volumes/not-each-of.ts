import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Stock } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { isPowderSlip } from "../powder-slips.ts";
import { ml } from "../showing.ts";

export const notEachOf = recipeCheck({
  name: "not-each-of",
  family: "volumes",
  severity: "error",
  title: "One step into several containers that does not say each",
  why: "Split between them, or into each, would be a guess.",
  source: "common practice",
  rows: [],
  bad: example(
    ["    bag          saline-bag-100", "    bag          2 x saline-bag-100"],
    ["    concentration  37.04 mg/mL\n", ""],
  ),
  good: example(),
  happening: "not-each-of",
  find: (context) =>
    happened(context.run, "not-each-of")
      .filter(({ data }) => !isPowderSlip(stockNamed(data.name, context), context))
      .map((h) => ({ at: h.spot, step: h.step, asks: asksForMost(h.data.name, context.run), ...h.data })),
  say: ({ step, name, count, asks, each }) => ({
    text: `${name} stands for ${count} containers${asks ? `, since step ${asks.step.number} asks for ${ml(asks.volume)} of it,` : ""} and step ${step.number} needs one. ${remedy(name, each)}${asks && asks.step !== step ? `, or correct step ${asks.step.number}` : ""}.`,
  }),
});

function remedy(name: string, each: boolean): string {
  return each
    ? `Write \`each of ${name}\`, or name one container`
    : `Give each a line of its own in \`materials\`, such as \`${name}-1\`, and write a step for each`;
}

/** Where the number is worked out, the step that asks for the most of it is what the number comes from. */
function asksForMost(name: string, { groups, steps }: Run): { step: StepRun; volume: Exact } | undefined {
  if (groups.get(name)?.stated !== undefined) return undefined;
  let most: { step: StepRun; volume: Exact } | undefined;
  for (const step of steps) {
    const volume = step.movements
      .filter(({ how, from }) => how === "draw" && from?.name === name)
      .reduce((sum, { moved }) => sum.plus(moved), Exact.zero);
    if (volume.isAbove(most?.volume ?? Exact.zero)) most = { step, volume };
  }
  return most;
}

function stockNamed(name: string, { recipe, lookup }: RecipeContext): Stock | undefined {
  const material = recipe.materials.find((m) => m.name.name === name);
  return material && lookup.find("stock", material.item.name);
}
