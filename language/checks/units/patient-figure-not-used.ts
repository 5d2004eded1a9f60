import { inputRanges } from "../../bench/order.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { everyCondition, everyFact } from "../declared-facts.ts";
import { example } from "../example.ts";
import { measuresOf } from "../stated-measures.ts";
import { isOrderedNotKnown } from "../unread-facts.ts";

/** What a unit is divided by when it counts per kg or per m2. */
const counted: Readonly<Record<string, { axis: string; per: string }>> = {
  clearance: { axis: "exposure", per: "AUC" },
  weight: { axis: "bodyWeight", per: "/kg" },
  "body-surface": { axis: "area", per: "/m2" },
};

export const patientFigureNotUsed = recipeCheck({
  name: "patient-figure-not-used",
  family: "units",
  severity: "warning",
  across: "pieces",
  title: "An order for a range of patients who all get the same",
  why: "15 mg written for 15 mg/kg is given to the smallest and the largest alike.",
  source: "common practice",
  bad: example([
    "    dose            4 g per bag\n",
    "    weight          40 kg to 80 kg\n    dose            4 g per bag\n",
  ]),
  good: example(
    ["    dose            4 g per bag\n", "    weight          40 kg to 80 kg\n    dose            4 g per bag\n"],
    [
      "  rate           up to 9 g/h for route intravenous\n",
      "  rate           up to 100 mg/kg/h for route intravenous\n",
    ],
  ),
  *find({ recipe, lookup }) {
    // What cannot be read may be what depends on it.
    if (isOrderedNotKnown(recipe)) return;
    for (const { input, range, start, end } of inputRanges(recipe)) {
      const kind = counted[input];
      const [from, to] = [range.from.quantity, range.to.quantity];
      if (!kind || !from || !to || inBase(from).equals(inBase(to)) || isUsed(input, kind.axis, recipe, lookup))
        continue;
      yield { at: { start, end }, input, per: kind.per, dose: recipe.order?.one("dose")?.slots.dose.written };
    }
  },
  say: ({ input, per, dose }) => ({
    text: `The order is for a range of ${input.replace("-", " ")}, and nothing in it depends on that${dose === undefined ? "" : `: everybody gets ${dose}`}. Write the dose ${input === "clearance" ? "as" : "with"} \`${per}\`, or take the range out.`,
  }),
});

/** By a figure per kg, by a condition, or by a limit of the drug that counts so. */
function isUsed(input: string, axis: string, recipe: Recipe, lookup: Lookup): boolean {
  const drugs = orderedDrugs(recipe).flatMap((name) => lookup.find("drug", name) ?? []);
  return [recipe, ...drugs].some(
    (declaration) =>
      everyCondition(declaration).some((condition) => condition.input.name === input) ||
      everyFact(declaration)
        .flatMap(measuresOf)
        .some((m) =>
          m.quantity?.unit.parts.some(({ row, power }) => row.axis === axis && (power < 0 || axis === "exposure")),
        ),
  );
}
