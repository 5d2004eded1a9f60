import { declarationCheck } from "../check.ts";
import { bandRows, bandsExample, bandText } from "./band-rows.ts";

const second = "  from  3 g below 4 g gives 3.5 g\n";
const third = "  from  4 g below 5 g gives 4.5 g\n";

export const bandsOutOfOrder = declarationCheck({
  name: "bands-out-of-order",
  family: "units",
  severity: "warning",
  title: "Dose bands that do not stand in rising order",
  why: "A reader who looks for a band from above misses one that stands out of its place.",
  source: "common practice",
  bad: bandsExample([second + third, third + second]),
  good: bandsExample(),
  *find({ declaration }) {
    const rows = bandRows(declaration);
    for (const [i, row] of rows.entries()) {
      const before = rows[i - 1];
      if (before && row.low.isBelow(before.low)) yield { at: row, row, before };
    }
  },
  say: ({ row, before }) => ({
    text: `The band ${bandText(row)} stands behind ${bandText(before)}. Put the bands in rising order.`,
  }),
});
