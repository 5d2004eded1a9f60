import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultsNamed } from "./figures.ts";
import { inPrintedText, type Pattern } from "./printed-text.ts";
import { sayWrittenOrPrinted, writeEither } from "./written-or-printed.ts";

/** Behind a word of time only: `bag 2/7` and `ward 3/12` count something else. */
const patterns: readonly Pattern[] = [
  {
    pattern: /(?<=\b(?:for|every|over|within|after|each|last|next|[xX×]) ?)[1-9]\d?\/(?:7|12|24|52)(?![\w/])/g,
    meanings: ([text]) => [asDuration(text)].flatMap((time) => time ?? []),
    detail: "A time written as a fraction is read as a count, or as another time.",
  },
];

export const timeAsFraction = chunkCheck({
  name: "time-as-fraction",
  family: "notation",
  severity: "error",
  title: "A time written as a fraction",
  why: "Fractions for a time are read as counts.",
  source: "Do Not Use: dangerous abbreviations, symbols and dose designations, 2025 update (ISMP Canada)",
  rows: ["error-prone-notation fraction-duration"],
  bad: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 1/7",
  ]),
  good: example([
    "  light          not-sensitive",
    "  light          not-sensitive\n  container-material  polyolefin suitable for giving over 1 day",
  ]),
  find: (context) => [
    ...faultsNamed(context, "fraction-duration").map((fault) => ({ ...fault, safe: asDuration(fault.written) })),
    ...inPrintedText(context, patterns),
  ],
  say: sayWrittenOrPrinted,
  fixes: (found) => {
    if ("meanings" in found) return writeEither(found);
    const { at, safe } = found;
    return safe === undefined ? [] : [{ title: `Write ${safe}`, edits: [replaceText(at, safe)], preferred: true }];
  },
});

const names: Readonly<Record<string, [one: string, more: string]>> = {
  "7": ["day", "days"],
  "12": ["month", "months"],
  "24": ["h", "h"],
  "52": ["week", "weeks"],
};

/** `2/52` is 2 weeks; undefined where a unit stands behind it as well. */
function asDuration(written: string): string | undefined {
  const [, count = "", part = ""] = /^(\d+)\/(\d+)$/.exec(written) ?? [];
  const name = names[part];
  return name && `${count} ${count === "1" ? name[0] : name[1]}`;
}
