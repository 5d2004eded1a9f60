import { type InputRange, inputRanges } from "../../bench/order.ts";
import { holds } from "../../bench/order-rows.ts";
import { recipeCheck } from "../check.ts";
import { perWeight } from "./weight-example.ts";

export const rangeWithoutOrder = recipeCheck<{ at: InputRange; input: string }>({
  name: "range-without-order",
  family: "structure",
  severity: "error",
  across: "pieces",
  title: "A weight, an age or another figure of the order that no patient has by its own condition",
  why: "Where nobody is ordered for, there is nothing to judge, and silence would look like a recipe without faults.",
  source: "common practice",
  bad: perWeight("50 kg to 60 kg in steps of 2 kg  when weight above 80 kg"),
  good: perWeight("50 kg to 60 kg in steps of 2 kg  when weight above 40 kg"),
  *find({ recipe, run, range }) {
    const rows = inputRanges(recipe);
    if (range) {
      if (range.undecided.length > 0 || range.pieces.some((p) => p.result.ordered)) return;
      const at = rows.find((row) => row.when) ?? rows[0];
      if (at) yield { at, input: at.input };
      return;
    }
    for (const at of rows.filter((row, k) => rows.findIndex(({ input }) => input === row.input) === k)) {
      const own = rows.filter(({ input }) => input === at.input);
      if (own.every(({ when }) => when && holds(when, run.point, run.doses) !== true)) yield { at, input: at.input };
    }
  },
  say: ({ at: { when }, input }) => ({
    text: `No ${input.replace("-", " ")} of the order ${when ? "meets the condition that its row states, or the condition cannot be judged" : "lies on its steps"}; so nothing here was judged. Correct the ${when ? "condition" : "range or its steps"}.`,
  }),
});
