import { type OrderedDose, rowAt } from "../../bench/order-rows.ts";
import type { Spot } from "../../model/slots.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

/** What the steps bring is then judged against nothing, and this is said in its place. */
export function isRoundedToNothing({ given, calculated }: OrderedDose): boolean {
  return given?.value.isZero() === true && calculated?.value.isPositive() === true;
}

export const doseRoundedToNothing = recipeCheck<{ at: Spot; drug: string; calculated: string; step: string }>({
  name: "dose-rounded-to-nothing",
  family: "units",
  severity: "error",
  title: "A calculated dose that the rounding makes zero",
  why: "The container is made up and holds no drug; the unit of the dose or of the rounding is a slip.",
  source: "common practice",
  bad: example(
    [
      "    dose            4 g per bag\n",
      "    weight          60 kg\n    dose            50 mcg/kg per bag\n    round           dose to nearest 1 g\n",
    ],
    ["  dose           from 500 mg up to 10 g for any route\n", "  dose           up to 10 g for any route\n"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
  ),
  good: example(),
  *find({ recipe, run }) {
    const round = rowAt(recipe.order?.all("round"), { point: run.point, doses: [] });
    if (!round) return;
    for (const dose of run.doses) {
      if (!isRoundedToNothing(dose) || !dose.calculated) continue;
      yield { at: round, drug: dose.drug, calculated: showQuantity(dose.calculated), step: round.slots.step.written };
    }
  },
  say: ({ drug, calculated, step }) => ({
    text: `The calculated ${calculated} of ${drug} is rounded to nothing in steps of ${step}. Look at the unit of the dose and of the rounding, and correct the one that is wrong.`,
  }),
});
