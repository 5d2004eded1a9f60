import { inputRanges } from "../../bench/order.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { perWeight } from "./weight-example.ts";

export const rangeEndBetweenSteps = recipeCheck({
  name: "range-end-between-steps",
  family: "structure",
  severity: "error",
  across: "pieces",
  title: "A range that does not end on its own steps",
  why: "The order names the last patient, but its steps pass over him, and nothing is judged for him.",
  source: "common practice",
  bad: perWeight("50 kg to 61 kg in steps of 2 kg"),
  good: perWeight("50 kg to 60 kg in steps of 2 kg"),
  *find({ recipe }) {
    for (const { range, step } of inputRanges(recipe)) {
      const { from, to } = range;
      if (!range.isRange || !step || !from.quantity || !to.quantity) continue;
      const dimension = to.quantity.unit.dimension;
      if (from.quantity.unit.dimension !== dimension || step.unit.dimension !== dimension) continue;
      const [low, high, width] = [inBase(from.quantity), inBase(to.quantity), inBase(step)];
      if (!width.isPositive() || high.isBelow(low) || high.minus(low).over(width).isWhole()) continue;
      const steps = Exact.of(high.minus(low).over(width).floor());
      const last: Quantity = {
        value: low.plus(steps.times(width)).over(to.quantity.unit.factor),
        unit: to.quantity.unit,
      };
      yield { at: to, from: from.written, to: to.written, step: showQuantity(step), last: showQuantity(last) };
    }
  },
  say: ({ from, to, step, last }) => ({
    text: `Steps of ${step} from ${from} pass over ${to}; the last one is ${last}, and nothing is judged above it. Let the range end on a step, or state finer steps.`,
  }),
  fixes: ({ at, last }) => [{ title: `End the range at ${last}`, edits: [replaceText(at, last)] }],
});
