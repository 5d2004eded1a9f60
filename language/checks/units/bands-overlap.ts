import { declarationCheck } from "../check.ts";
import { ascending, bandRows, bandsExample, bandText } from "./band-rows.ts";

export const bandsOverlap = declarationCheck({
  name: "bands-overlap",
  family: "units",
  severity: "error",
  title: "Dose bands that overlap",
  why: "A dose in both bands gets whichever stands first.",
  source: "common practice",
  bad: bandsExample(["  from  3 g below 4 g", "  from  3 g below 4.5 g"]),
  good: bandsExample(),
  *find({ declaration }) {
    let last: ReturnType<typeof bandRows>[number] | undefined;
    for (const row of ascending(bandRows(declaration))) {
      if (last && row.low.isBelow(last.high)) yield { at: row, last, row };
      if (!last || row.high.isAbove(last.high)) last = row;
    }
  },
  say: ({ last, row }) => ({
    text: `The bands ${bandText(last)} and ${bandText(row)} overlap: a dose of ${row.lowMeasure.written} is in both. Let one end where the next begins.`,
    related: [{ at: last, text: "the other band" }],
  }),
});
