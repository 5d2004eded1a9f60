import { declarationCheck } from "../check.ts";
import { ascending, bandRows, bandsExample, bandText } from "./band-rows.ts";

export const bandsGap = declarationCheck({
  name: "bands-gap",
  family: "units",
  severity: "error",
  title: "Dose bands that leave a gap",
  why: "A dose that falls into the gap has no band, and somebody at the bench will choose one.",
  source: "common practice",
  bad: bandsExample(["  from  3 g below 4 g gives 3.5 g\n", ""]),
  good: bandsExample(),
  *find({ declaration }) {
    let last: ReturnType<typeof bandRows>[number] | undefined;
    for (const row of ascending(bandRows(declaration))) {
      if (last && row.low.isAbove(last.high)) yield { at: row, last, row };
      if (!last || row.high.isAbove(last.high)) last = row;
    }
  },
  say: ({ last, row }) => ({
    text: `From ${last.highMeasure.written} to below ${row.lowMeasure.written} there is no band: one ends below ${last.highMeasure.written}, the next is ${bandText(row)}. Close the gap.`,
    related: [{ at: last, text: "the band before the gap" }],
  }),
});
