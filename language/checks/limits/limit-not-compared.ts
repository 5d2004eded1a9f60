import { recipeCheck } from "../check.ts";
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
      if (side !== "unknown" || (!rate && isGivingNotKnown(context.recipe))) continue;
      const missing = rate
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
