import { inBase } from "../../quantities/quantity.ts";
import { declarationCheck } from "../check.ts";
import { bandRows, bandsExample, bandText } from "./band-rows.ts";

export const bandGivesOutside = declarationCheck({
  name: "band-gives-outside",
  family: "units",
  severity: "error",
  title: "A dose band that gives a dose outside itself",
  why: "The dose given would lie further from the calculated one than the band is wide.",
  source: "common practice",
  bad: bandsExample(["gives 3.5 g", "gives 35 g"]),
  good: bandsExample(),
  *find({ declaration }) {
    for (const row of bandRows(declaration)) {
      const given = row.givenMeasure.quantity;
      if (!given || row.low.isAtLeast(row.high)) continue;
      const alike = given.unit.dimension === row.lowMeasure.quantity?.unit.dimension;
      // The upper end itself is the usual figure of a band that rounds upward.
      if (alike && inBase(given).isAtLeast(row.low) && inBase(given).isAtMost(row.high)) continue;
      yield { at: row.givenMeasure, row };
    }
  },
  say: ({ row }) => ({
    text: `The band ${bandText(row)} gives ${row.givenMeasure.written}, which lies outside it. Correct the dose given or the ends of the band.`,
  }),
});
