import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultyTokens, linesOf } from "./figures.ts";
import { writtenDates } from "./written-dates.ts";

export const rangeWithHyphen = chunkCheck({
  name: "range-with-hyphen",
  family: "notation",
  severity: "error",
  title: "A range written with a hyphen",
  why: "The hyphen is read as a minus or as part of the figure, and the line cannot be used.",
  source: "common practice",
  bad: example(["infuse-over     4 h", "infuse-over     4 h\n    age             20-80 years"]),
  good: example(["infuse-over     4 h", "infuse-over     4 h\n    age             20 years to 80 years"]),
  *find({ reading }) {
    if (!faultyTokens(reading).some((token) => token.fault === "hyphen-range")) return;
    for (const line of linesOf(reading)) {
      const dates = writtenDates(line.tokens);
      for (const [i, token] of line.tokens.entries()) {
        if (dates.some((d) => d.from <= i && i < d.to)) continue;
        if (token.fault === "hyphen-range") yield { at: { start: token.start, end: token.end }, ...parted(token.text) };
      }
    }
  },
  say: ({ written, safe }) => ({
    text: `${written} is written with a hyphen, which can be read as a minus; the line is not used. Write ${safe ?? "both ends with their unit and `to` between them"}.`,
  }),
  fixes: ({ at, safe }) =>
    safe === undefined ? [] : [{ title: `Write ${safe}`, edits: [replaceText(at, safe)], preferred: true }],
});

/** `60-100 kg` as `60 kg to 100 kg`; no safe form where the unit is missing or more than two figures are joined. */
function parted(written: string): { written: string; safe: string | undefined } {
  const parts = /^([\d.,]+)[-\u2010-\u2015\u2212]([\d.,]+)[ \t]*([^\s\d].*)$/.exec(written);
  return { written, safe: parts ? `${parts[1]} ${parts[3]} to ${parts[2]} ${parts[3]}` : undefined };
}
