import { happened } from "../../bench/run.ts";
import type { Stock } from "../../model/declaration.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { isPowderSlip } from "../powder-slips.ts";

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
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, name, count, each }) => ({
    text: `${name} stands for ${count} containers and step ${step.number} needs one. ${each ? `Write \`each of ${name}\`, or name one container` : `Give each a line of its own in \`materials\`, such as \`${name}-1\`, and write a step for each`}.`,
  }),
});

function stockNamed(name: string, { recipe, lookup }: RecipeContext): Stock | undefined {
  const material = recipe.materials.find((m) => m.name.name === name);
  return material && lookup.find("stock", material.item.name);
}
