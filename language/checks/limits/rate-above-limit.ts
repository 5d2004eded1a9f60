import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { limitsText } from "./limit-row.ts";
import { type RateFound, rateBreaches } from "./rates.ts";

export const rateAboveLimit = recipeCheck({
  name: "rate-above-limit",
  family: "limits",
  severity: "error",
  title: "Given faster than the drug may be given",
  why: "Given too fast, a right dose does harm.",
  source: "common practice; each limit stands in the library with its own source",
  rows: [
    "limits k-rate",
    "limits k-rate-urgent",
    "limits mg-rate",
    "limits ca-rate",
    "limits vanc-rate",
    "limits phenytoin-rate",
    "limits furosemide-rate",
  ],
  bad: example(["    infuse-over     4 h\n", "    infuse-over     20 min\n"]),
  good: example(),
  *find(context) {
    for (const found of rateBreaches(context)) {
      if (found.rate && found.side === "above") yield found;
    }
  },
  say: ({ drug, what, vessel, shown, rows, isByRate, mark, over }) => ({
    text: `${what} runs from ${vessel.name} at ${shown}; allowed is ${limitsText(rows)}. ${mark ? readingText(mark, slower(isByRate)) : over ? `Give it over ${over} or longer` : `Give ${slower(isByRate)}`}.`,
    related: [{ at: { start: rows[0]!.start, end: rows[0]!.end, chunk: drug.chunk }, text: "the limit" }],
  }),
});

function slower(isByRate: boolean): string {
  return isByRate ? "it more slowly" : "it over a longer time";
}

function readingText(
  { draw: { asked, reading, interval, syringe }, ordered }: NonNullable<RateFound["mark"]>,
  slower: string,
): string {
  return `As ordered it is ${ordered}: ${ml(asked)} is drawn as ${ml(reading)}, because ${thingName(syringe)} is marked every ${ml(interval)}. Use a syringe with finer marks, round the dose down, or give ${slower}`;
}
