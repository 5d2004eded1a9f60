import { holds } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { ConditionSlot } from "../../model/slots.ts";
import { inputWord } from "../../proof/range-text.ts";
import { preferredUnit, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isDoseRefused } from "../dose-refused.ts";
import { example } from "../example.ts";
import { isOrderedNotKnown } from "../unread-facts.ts";
import { isFollowed } from "./condition-not-followed.ts";
import { isConditionWord } from "./condition-word-unknown.ts";

interface NotJudged {
  at: ConditionSlot;
  /** The figure of the order that it was laid against; undefined where the order states none. */
  value: Quantity | undefined;
}

export const conditionNotJudged = recipeCheck<NotJudged>({
  name: "condition-not-judged",
  family: "structure",
  severity: "error",
  title: "A condition that cannot be laid against the order",
  why: "Nobody knows for whom the line counts, and what it says is then missing or too much.",
  source: "common practice",
  bad: example(["    inspect bag\n", "    inspect bag\n    only when age up to 3 years {\n      tap bag\n    }\n"]),
  good: example(["    inspect bag\n", "    inspect bag\n    only when dose above 2 g {\n      tap bag\n    }\n"]),
  *find({ recipe, runs }) {
    if (!recipe.chunk.text.includes("when")) return;
    for (const condition of conditionsOf(recipe)) {
      const { input, bound } = condition;
      // A word or a figure that cannot be read is told where it stands.
      if (!isConditionWord(input.name)) continue;
      if ([bound.low, bound.high].some((end) => end && !end.measure.quantity)) continue;
      if (input.name !== "dose" && recipe.order?.isUnread(input.name)) continue;
      for (const run of runs) {
        const { point, doses } = run;
        if (holds(condition, point, doses) !== undefined) continue;
        const value = input.name === "dose" ? doses[0]?.given : point.get(input.name);
        if (input.name === "dose" && isDoseTold(run)) continue;
        yield { at: condition, value };
        break;
      }
    }
  },
  say: ({ at: { input, bound }, value }) => {
    const { name } = input;
    const said = inputWord(name);
    const limit = (bound.low ?? bound.high)?.measure.written ?? "";
    if (value)
      return {
        text: `The condition lays the ${said}, ${showQuantity(preferredUnit(value))}, against ${limit}: the two measure different things, so nobody knows for whom the line counts. State it in the unit of the ${said}.`,
      };
    return {
      text: `The condition asks for the ${said}, and the order states none, so nobody knows for whom the line counts. State \`${name}\` in the order, or take the condition out.`,
    };
  },
});

/** That a dose is not known, or is none of the drug, is told with its reason. */
function isDoseTold(run: Run): boolean {
  const [dose] = run.doses;
  return dose ? !dose.given || isDoseRefused(run) : isOrderedNotKnown(run.recipe);
}

/** All that the bench follows. */
function conditionsOf(recipe: Recipe): ConditionSlot[] {
  const stated = [...(recipe.order?.every() ?? []), ...recipe.preparations.flatMap((p) => p.facts.every())];
  const rows = stated.filter((fact) => fact.when && isFollowed(recipe, fact));
  return [
    ...rows.flatMap(({ when }) => when ?? []),
    ...recipe.materials.flatMap(({ when }) => when ?? []),
    ...new Set(recipe.steps.flatMap(({ only }) => only)),
  ];
}
