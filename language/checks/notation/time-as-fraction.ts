import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { faultsNamed, sayWritten } from "./figures.ts";

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
  find: (context) =>
    faultsNamed(context, "fraction-duration").map((fault) => ({ ...fault, safe: asDuration(fault.written) })),
  say: sayWritten,
  fixes: ({ at, safe }) =>
    safe === undefined ? [] : [{ title: `Write ${safe}`, edits: [replaceText(at, safe)], preferred: true }],
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
