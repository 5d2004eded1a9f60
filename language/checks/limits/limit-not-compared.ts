import { rowAt } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { isGivingNotKnown } from "../unread-facts.ts";
import { breaches, limitsText } from "./limit-rows.ts";
import { rateBreaches } from "./rates.ts";

export const limitNotCompared = recipeCheck({
  name: "limit-not-compared",
  family: "limits",
  severity: "warning",
  title: "A declared limit that could not be laid against the preparation",
  why: "A limit that is not checked must not look as if it had been kept.",
  source: "common practice",
  bad: example([
    "  rate           up to 9 g/h for route intravenous\n",
    "  rate           up to 100 mg/kg/h for route intravenous\n",
  ]),
  good: example(),
  *find(context) {
    for (const { at, drug, side, rows } of [
      ...breaches(context, "concentration"),
      ...breaches(context, "usual-concentration"),
    ]) {
      if (side === "unknown")
        yield {
          at,
          drug,
          rows,
          what: "concentration",
          missing: "the figures of its order and monograph do not convert into each other",
        };
    }
    for (const { at, drug, side, rows, rate } of rateBreaches(context)) {
      if (side !== "unknown" || (!rate && (isGivingNotKnown(context.recipe) || isRowTold(context)))) continue;
      const missing =
        rate || isGivingStated(context.recipe)
          ? "the order or the monograph lacks a figure for it, such as a weight, a formula or an ion"
          : "the order does not say how fast it is given";
      yield { at, drug, rows, what: "rate", missing };
    }
  },
  say: ({ drug, rows, what, missing }) => ({
    text: `The ${what} of ${drug.name.name} (${limitsText(rows)}) was not checked: ${missing}. Add it, or state the limit in the unit of the strength.`,
    related: [{ at: { start: rows[0]!.start, end: rows[0]!.end, chunk: drug.chunk }, text: "the limit" }],
  }),
});

function isGivingStated({ order }: Recipe): boolean {
  return ["infuse-over", "infuse-at"].some((word) => (order?.all(word as "infuse-over").length ?? 0) > 0);
}

/** Of rows told apart by their conditions none holds, or it is not known which; both are told at the rows. */
function isRowTold({ recipe, runs, policy }: Pick<RecipeContext, "recipe" | "runs" | "policy">): boolean {
  const { order } = recipe;
  const isGiven = (run: Run) => rowAt(order?.all("infuse-over"), run) ?? rowAt(order?.all("infuse-at"), run);
  if (!isGivingStated(recipe) || runs.every(isGiven)) return false;
  return ["order-row-does-not-hold", "condition-not-judged"].every((name) => isShownAsError(name, recipe, policy));
}
