import { declarationCheck } from "../check.ts";
import { bandRows, bandsExample } from "./band-rows.ts";

export const bandEmpty = declarationCheck({
  name: "band-empty",
  family: "units",
  severity: "error",
  title: "A dose band into which no dose falls",
  why: "Its ends are the wrong way round or equal, so the doses that were meant have no band.",
  source: "common practice",
  bad: bandsExample(["  from  4 g below 5 g gives 4.5 g\n", "  from  5 g below 4 g gives 4.5 g\n"]),
  good: bandsExample(),
  *find({ declaration }) {
    for (const row of bandRows(declaration)) if (row.low.isAtLeast(row.high)) yield { at: row, row };
  },
  say: ({ row }) => ({
    text: `This band goes from ${row.lowMeasure.written} to below ${row.highMeasure.written}: no dose lies in it. Put the smaller figure first, or correct it.`,
  }),
});
