import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultyTokens, linesOf } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { mayHoldDate, monthNamed, writtenDates } from "./written-dates.ts";

/** In printed words; with points only where the year is written out, since sections of a text are numbered so. */
const inWords: readonly Pattern[] = [
  {
    pattern:
      /(?<![\d./-])(?:\d{1,2}\/\d{1,2}\/(?:20)?\d\d|\d{1,2}\.\d{1,2}\.20\d\d|\d{1,2}-\d{1,2}-20\d\d)(?![\d/-]| ?(?:mL|L|mg|mcg|g|kg|units|mm|%))/g,
    meanings: [],
    detail: "",
  },
];

export const dateNotIso = chunkCheck({
  name: "date-not-iso",
  family: "notation",
  severity: "error",
  title: "A date that is not written year first",
  why: "03/04/27 is the 3rd of April in one country and the 4th of March in another.",
  source: "ISO 8601, representations of dates",
  bad: example(['lot "KQ-2291"  expires 2027-04', 'lot "KQ-2291"  expires 04/2027']),
  good: example(),
  *find(context) {
    const { reading, chunk } = context;
    const isShapeFaulty = faultyTokens(reading).some((token) => token.fault === "date-shape");
    for (const { tokens } of linesOf(reading)) {
      if (!isShapeFaulty && !mayHoldDate(tokens)) continue;
      const dates = writtenDates(tokens);
      for (const { start, end } of dates) {
        const written = chunk.text.slice(start, end);
        yield { at: { start, end }, written, safe: yearFirst(written) };
      }
      for (const [i, token] of tokens.entries()) {
        if (token.fault !== "date-shape" || dates.some((d) => d.from <= i && i < d.to)) continue;
        yield { at: { start: token.start, end: token.end }, written: token.text, safe: yearFirst(token.text) };
      }
    }
    for (const { at, written } of inPrintedText(context, inWords)) {
      const safe = yearFirst(written);
      // 25/12/2026 has one reading, and a figure such as 5/10/20 none.
      if (
        safe.length > 1 ||
        (safe.length === 0 && yearFirst(`${written.slice(0, -2)}20${written.slice(-2)}`).length > 0)
      )
        yield { at, written, safe };
    }
  },
  say: ({ written, safe }) => ({
    text:
      safe.length > 0
        ? `The date is written as ${written}. Write ${safe.join(" or ")}${safe.length > 1 ? ", whichever is meant" : ""}.`
        : `${written} cannot be read as a date. Write the year, the month and the day with hyphens, as 2027-04-30, or 2027-04 for a whole month.`,
  }),
  fixes: ({ at, safe }) =>
    safe.map((text) => ({
      title: `Write ${text}`,
      edits: [replaceText(at, text)],
      ...(safe.length === 1 ? { preferred: true as const } : {}),
    })),
});

/** What a date can mean: one reading, or two where day and month can be exchanged. Years of two figures are not guessed. */
function yearFirst(text: string): string[] {
  const named = /^(?:(\d{1,2})\s)?([A-Za-z]+\.?)\s(\d{4})$/.exec(text);
  const month = named && monthNamed(named[2]!);
  if (named && month) return dated(named[3]!, String(month), named[1]);
  const yearAhead = /^(\d{4})[/. -](\d{1,2})(?:[/. -](\d{1,2}))?$/.exec(text);
  if (yearAhead) return dated(yearAhead[1]!, yearAhead[2]!, yearAhead[3]);
  const monthAndYear = /^(\d{1,2})[/ -](\d{4})$/.exec(text);
  if (monthAndYear) return dated(monthAndYear[2]!, monthAndYear[1]!, undefined);
  const yearLast = /^(\d{1,2})[/.-](\d{1,2})[/.-](\d{4})$/.exec(text);
  if (!yearLast) return [];
  const [, first = "", second = "", year = ""] = yearLast;
  return [...new Set([...dated(year, second, first), ...dated(year, first, second)])];
}

function dated(year: string, month: string, day: string | undefined): string[] {
  const isMonth = Number(month) >= 1 && Number(month) <= 12;
  const lastDay = new Date(Date.UTC(Number(year), Number(month), 0)).getUTCDate();
  if (!/^(?:19|20)/.test(year)) return [];
  if (!isMonth || (day !== undefined && (Number(day) < 1 || Number(day) > lastDay))) return [];
  return [[year, month.padStart(2, "0"), ...(day === undefined ? [] : [day.padStart(2, "0")])].join("-")];
}
