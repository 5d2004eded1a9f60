import { doseRule } from "../../bench/dose-rules.ts";
import { endsOf, orderedDoses } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, preferredUnit, type Quantity, sameDimension, showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isDoseSlip } from "../slips.ts";
import { isExampleDoseTold } from "../volumes/example-differs.ts";

/** A cap of adults beside the doses of small children is no slip; ten times too much leaves at least half of that between the two. */
const far = Exact.of(5);

const dose = "    dose            4 g per bag\n";
const capped = (most: string): [string, string][] => [
  [
    dose,
    `    weight          40 kg to 80 kg in steps of 2 kg\n    dose            50 mg/kg per bag\n    maximum         dose ${most}\n`,
  ],
  ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
  ["    concentration  37.04 mg/mL\n", ""],
  ["magnesium-4g {", "magnesium-by-weight {"],
  ["Magnesium sulfate 4 g in", "Magnesium sulfate by weight in"],
];

export const boundNeverReached = recipeCheck({
  name: "bound-never-reached",
  family: "units",
  severity: "note",
  across: true,
  title: "A largest or smallest dose that no order of the range comes near",
  why: "A cap that is ten times too high caps nothing, and looks as if it did.",
  source: "common practice",
  bad: example(...capped("40 g")),
  good: example(...capped("4 g")),
  *find(context) {
    const { recipe, runs, lookup, range } = context;
    const { order } = recipe;
    // Of one row for all the dose grows with each figure of the patient, so that its ends are at the ends of the range.
    const [only, second] = order?.all("dose") ?? [];
    if (!range || range.undecided.length > 0 || !order || !only || second || only.when || only.slots.bands) return;
    // A dose that is told as a slip is far from every bound.
    if (isExampleDoseTold(context) || runs.some((run) => run.doses.some(({ drug }) => isDoseSlip(drug, run)))) return;
    const ends = endsOf(recipe).map((point) => ({ doses: orderedDoses(recipe, point, lookup) }));
    const calculated = [...ends, ...runs].flatMap(({ doses }: Pick<Run, "doses">) => doses[0]?.calculated ?? []);
    for (const word of ["maximum", "minimum"] as const) {
      const [row, another] = order.all(word);
      const limit = row && doseRule(word, recipe, runs[0]!.point, runs[0]!.doses[0], lookup);
      const bound = limit?.quantity;
      if (!limit || !bound || another || row.when || !inBase(bound).isPositive()) continue;
      if (calculated.length === 0 || !calculated.every((each) => sameDimension(each, bound))) continue;
      const nearest = calculated.reduce((a, b) => (isNearer(b, a, word) ? b : a));
      const [less, more] = word === "maximum" ? [nearest, bound] : [bound, nearest];
      if (inBase(more).isBelow(inBase(less).times(far))) continue;
      yield { at: limit, word, written: only.slots.dose.written, bound: limit.written, nearest };
    }
  },
  say: ({ word, written, bound, nearest }) => ({
    text: `No order of the range comes near the \`${word}\` of ${bound}: by ${written} the dose is ${showQuantity(preferredUnit(nearest), 4)} at the ${word === "maximum" ? "most" : "least"}. Correct the figure that is wrong, or leave the line out.`,
  }),
});

function isNearer(one: Quantity, other: Quantity, word: "maximum" | "minimum"): boolean {
  return word === "maximum" ? inBase(one).isAbove(inBase(other)) : inBase(one).isBelow(inBase(other));
}
