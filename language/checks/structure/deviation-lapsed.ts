import { compareDates, isDateFault, parseDate } from "../../model/dates.ts";
import { libraryCheck } from "../check.ts";
import { example } from "../example.ts";

export const deviationLapsed = libraryCheck({
  name: "deviation-lapsed",
  family: "structure",
  severity: "error",
  title: "A deviation whose last day is past",
  why: "The exception has ended; what it silenced counts again.",
  source: "common practice",
  bad: example([
    "  preparation bag {",
    '  deviation glass-not-filtered on bag\n    because "form KQ-118"\n    by aseptic-lead\n    until 2026-11-24\n\n  preparation bag {',
  ]),
  good: example(),
  *find({ declaration, asOf }) {
    if (declaration.kind !== "recipe") return;
    for (const { check, until } of declaration.deviations) {
      const date = until && parseDate(until.text);
      if (until && date && !isDateFault(date) && compareDates(date, asOf) < 0)
        yield { at: until, check: check.name, until: until.text };
    }
  },
  say: ({ check, until }) => ({
    text: `The deviation from \`${check}\` ended with ${until}. Mend what it silenced, or have it renewed.`,
  }),
});
