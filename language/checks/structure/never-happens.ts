import { endsOf, orderedDoses } from "../../bench/order.ts";
import { holds } from "../../bench/order-rows.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import type { ConditionSlot, Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isOrderBackwards, isOrderRangeUnread } from "../units/range-backwards.ts";
import { isExampleDoseTold } from "../volumes/example-differs.ts";

export const neverHappens = recipeCheck<{ at: Spot; what: string }>({
  name: "never-happens",
  family: "structure",
  severity: "warning",
  across: true,
  title: "A step or a material under a condition that no order meets",
  why: "What never happens is either a leftover or a slip in the condition, and then something needed is missing.",
  source: "common practice",
  bad: example(["    inspect bag\n", "    inspect bag\n    only when dose above 6 g {\n      tap bag\n    }\n"]),
  good: example(["    inspect bag\n", "    inspect bag\n    only when dose above 2 g {\n      tap bag\n    }\n"]),
  *find(context) {
    const { recipe, runs, lookup, policy } = context;
    if (isOrderBackwards(recipe) && isShownAsError("range-backwards", recipe, policy)) return;
    if (isOrderRangeUnread(recipe)) return;
    const [first] = runs;
    if (!first) return;
    // That the recipe gives another dose than a worked example expects is told there, and is likelier the slip.
    const isForExample = (conditions: readonly ConditionSlot[]) =>
      conditions.some(({ input }) => input.name === "dose") && isExampleDoseTold(context);
    // Where a range could not be decided as a whole, its ends were perhaps never run.
    const ends = () => endsOf(recipe).map((point) => ({ point, doses: orderedDoses(recipe, point, lookup) }));
    for (const [k, { step }] of first.steps.entries()) {
      if (step.only.length === 0 || !runs.every((r) => r.steps[k]?.skipped)) continue;
      const isMet = ends().some(({ point, doses }) => step.only.every((c) => holds(c, point, doses) !== false));
      if (!isMet && !isForExample(step.only)) yield { at: step, what: `Step ${step.number} is` };
    }
    for (const material of recipe.materials) {
      const { when } = material;
      if (!when || !runs.every((r) => holds(when, r.point, r.doses) === false)) continue;
      if (ends().some(({ point, doses }) => holds(when, point, doses)) || isForExample([when])) continue;
      yield { at: { start: material.start, end: material.end }, what: `${material.name.name} is` };
    }
  },
  say: ({ what }) => ({
    text: `${what} under a condition that no order of this recipe meets. Correct the condition, or take it out.`,
  }),
});
