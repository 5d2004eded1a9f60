import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { limitsText } from "./limit-row.ts";
import { rateBreaches } from "./rates.ts";

const rate = "  rate           up to 9 g/h for route intravenous\n";

export const rateBelowLimit = recipeCheck({
  name: "rate-below-limit",
  family: "limits",
  severity: "warning",
  title: "Given more slowly than the declared rates allow",
  why: "Below the declared rate the effect, or the stability while it runs, is not what the source describes.",
  source: "common practice",
  bad: example([rate, "  rate           from 2 g/h up to 9 g/h for route intravenous\n"]),
  good: example([rate, "  rate           from 500 mg/h up to 9 g/h for route intravenous\n"]),
  *find(context) {
    for (const found of rateBreaches(context)) {
      if (found.rate && (found.side === "below" || found.side === "between")) yield found;
    }
  },
  say: ({ drug, what, vessel, shown, rows, isByRate, over, side }) => ({
    text: `${what} runs from ${vessel.name} at ${shown}; allowed is ${limitsText(rows)}. ${over && side === "below" ? `Give it over ${over} at most` : `Change ${isByRate ? "the rate" : "the time that it is given over"}`}.`,
    related: [{ at: { start: rows[0]!.start, end: rows[0]!.end, chunk: drug.chunk }, text: "the limit" }],
  }),
});
