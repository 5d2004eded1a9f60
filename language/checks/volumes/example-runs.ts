/** Worked examples of a recipe: their point of the order, and the recipe carried out there. */
import { type InputRange, inputRanges, orderInputs } from "../../bench/order.ts";
import type { OrderPoint } from "../../bench/order-rows.ts";
import { type Run, runRecipe } from "../../bench/run.ts";
import type { Example, Recipe } from "../../model/declaration.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import type { RecipeContext } from "../context.ts";

/** The inputs that an example states, in order of writing. */
export function inputsOf(example: Example): { input: (typeof orderInputs)[number]; value: MeasureSlot }[] {
  return orderInputs.flatMap((input) => example.facts.all(input).map((f) => ({ input, value: f.slots.value })));
}

/** Whether a value stands in one of the ranges of its input and on its steps. Undefined where it cannot be compared. */
export function standsIn(
  value: Quantity,
  ranges: readonly InputRange[],
): "yes" | "outside" | "between-steps" | undefined {
  let verdict: "outside" | "between-steps" = "outside";
  for (const { range, step } of ranges) {
    const low = range.from.quantity;
    const high = range.to.quantity;
    if (!low || !high) return undefined;
    if ([low, high].some((end) => end.unit.dimension !== value.unit.dimension)) return undefined;
    if (inBase(value).isBelow(inBase(low)) || inBase(value).isAbove(inBase(high))) continue;
    if (!step || !inBase(step).isPositive()) return "yes";
    if (inBase(value).minus(inBase(low)).over(inBase(step)).isWhole()) return "yes";
    verdict = "between-steps";
  }
  return verdict;
}

/** Inputs of the order by word. */
export function rangesOf(recipe: Recipe): Map<string, InputRange[]> {
  const ranges = new Map<string, InputRange[]>();
  for (const each of inputRanges(recipe)) ranges.set(each.input, [...(ranges.get(each.input) ?? []), each]);
  return ranges;
}

/**
 * The point of an example: its own inputs, and those of the order that have one value only.
 * @returns undefined where the example does not fit its order; the checks of the examples' inputs say why
 */
export function pointOf(example: Example, recipe: Recipe): OrderPoint | undefined {
  const ranges = rangesOf(recipe);
  const point = new Map<string, Quantity>();
  for (const [input, rows] of ranges) {
    const only = rows.length === 1 && !rows[0]!.range.isRange ? rows[0]!.range.from.quantity : undefined;
    if (only) point.set(input, only);
  }
  for (const { input, value } of inputsOf(example)) {
    const rows = ranges.get(input);
    if (!value.quantity || !rows || standsIn(value.quantity, rows) !== "yes") return undefined;
    point.set(input, value.quantity);
  }
  return [...ranges.keys()].every((input) => point.has(input)) ? point : undefined;
}

/** The recipe at an example's inputs, by the label's volumes. */
export function runOf(example: Example, { recipe, lookup, policy }: RecipeContext): Run | undefined {
  const point = pointOf(example, recipe);
  return point && runRecipe(recipe, lookup, policy, { point, overfill: "label" });
}

/** `the example "adult of 60 kg"`. */
export function exampleName({ title }: Example): string {
  return title ? `the example "${title.text}"` : "the example";
}
