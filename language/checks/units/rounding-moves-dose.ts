import { endsOf, orderedDoses } from "../../bench/order.ts";
import { rowAt } from "../../bench/order-rows.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import { inBase, preferredUnit, showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { percent } from "../showing.ts";
import { isRoundedToNothing } from "./dose-rounded-to-nothing.ts";

const dose = "    dose            4 g per bag\n";
const rounded = (step: string): [string, string] => [
  dose,
  `    weight          74 kg\n    dose            50 mg/kg per bag\n    round           dose ${step}\n`,
];
const drawn: [string, string] = ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"];
const untitled: [string, string][] = [
  ["magnesium-4g {", "magnesium-by-weight {"],
  ["Magnesium sulfate 4 g in", "Magnesium sulfate by weight in"],
  ["    concentration  37.04 mg/mL\n", ""],
];

export const roundingMovesDose = recipeCheck({
  name: "rounding-moves-dose",
  family: "units",
  severity: "warning",
  title: "A rounding that is coarse for the dose it rounds",
  why: "Rounding to 5 mg is nothing to an adult and a sixth of the dose to a newborn, who gets that much more or less every time.",
  source: "common practice; how far rounding may move a dose is the site's own decision (`tolerance rounding`)",
  bad: example(rounded("to nearest 1.5 g"), drawn, ...untitled),
  good: example(rounded("to nearest 100 mg"), drawn, ...untitled),
  *find(context) {
    const { recipe, runs, policy } = context;
    if (!recipe.order?.one("round") || isNothingSomewhere(context)) return;
    for (const { doses, point } of runs) {
      const at = rowAt(recipe.order?.all("round"), { point, doses: [] });
      if (!at) continue;
      for (const { rounding, given } of doses) {
        if (!rounding || !given) continue;
        const { from, to } = rounding;
        // A dose that the cap sets is not the rounded one; that nothing is left of it is told as that.
        if (to !== given || to.value.isZero()) continue;
        const [before, after] = [inBase(from), inBase(to)];
        const allowed = before.times(policy.tolerance.rounding);
        // Not by the size of the difference: whether it is more or less need not be decided for every weight.
        if (after.isAtMost(before.plus(allowed)) && after.isAtLeast(before.minus(allowed))) continue;
        yield { at, from, to, step: at.slots.step.written, allowed: policy.tolerance.rounding };
      }
    }
  },
  say({ from, to, step, allowed }) {
    const off = inBase(to).minus(inBase(from));
    const share = `${percent(off.over(inBase(from)).abs())} ${off.isPositive() ? "more" : "less"}`;
    return {
      text: `The calculated ${showQuantity(preferredUnit(from), 4)} is rounded to ${showQuantity(preferredUnit(to))} in steps of ${step}, ${share}; rounding may move a dose by ${percent(allowed)} here. Round to a smaller step, or state the rounding for these patients apart with \`when\`.`,
    };
  },
});

/** At an end of the range nothing is left of the dose, which is told of the same line as an error. */
function isNothingSomewhere({ recipe, lookup, policy }: RecipeContext): boolean {
  if (!isShownAsError("dose-rounded-to-nothing", recipe, policy)) return false;
  return endsOf(recipe).some((point) => orderedDoses(recipe, point, lookup).some(isRoundedToNothing));
}
