import { everyHours } from "../../quantities/notation-words.ts";
import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inPrintedText, type Pattern, sayPrinted, writeOut } from "./printed-text.ts";

const patterns: readonly Pattern[] = [
  {
    pattern: /\b(?:QOD|qod|q\.o\.d\.)(?!\w)/g,
    meanings: ["every other day"],
    detail: "QOD has been read as daily or four times daily.",
  },
  { pattern: /\b(?:QD|qd|q\.d\.)(?!\w)/g, meanings: ["daily"], detail: "QD has been read as four times daily." },
  { pattern: /\b(?:QHS|qhs)(?!\w)/g, meanings: ["nightly"], detail: "QHS has been read as every hour." },
  { pattern: /\b(?:TIW|tiw)(?!\w)/g, meanings: ["3 times weekly"], detail: "TIW has been read as 3 times daily." },
  { pattern: /\b(?:BIW|biw)(?!\w)/g, meanings: ["2 times weekly"], detail: "BIW has been read as 2 times daily." },
  {
    pattern: /\b(?:[Qq]1[Dd]|i\/d)(?![\w/])/g,
    meanings: ["daily"],
    detail: "q1d has been read as four times daily, and i/d as three times daily.",
  },
  {
    pattern: /\b[Qq]\d{1,2} ?(?:[AP]M|[ap]m)\b/g,
    meanings: ([text]) => [`daily at ${text.replace(/^q(\d+) ?/i, "$1 ").toUpperCase()}`],
    detail: "q6PM has been read as every 6 hours.",
  },
  { pattern: /\b(?:QN|qn|q\.n\.)(?!\w)/g, meanings: ["nightly"], detail: "QN has been read as every hour." },
  {
    pattern: /(?<![\w.])[xX×]\d+d\b/g,
    meanings: ([text]) => [`for ${text.slice(1, -1)} days`, `${text.slice(1, -1)} doses`],
    detail: "x3d stands for 3 days, and has been read as 3 doses.",
  },
  {
    pattern: /\bq\d{1,2}°/g,
    meanings: ([text]) => [everyHours(text.slice(1, -1))],
    detail: "The degree sign reads as a zero.",
  },
];

export const frequencyAbbreviated = chunkCheck({
  name: "frequency-abbreviated",
  family: "notation",
  severity: "warning",
  title: "An abbreviated frequency in printed text",
  why: "QD, QOD and q2° have been read for each other and for figures.",
  source:
    "Official Do Not Use list (The Joint Commission); ISMP list as printed in a nursing journal (Nephrology Nursing Journal); q1d, QN and q6PM: ISMP list of error-prone abbreviations, symbols and dose designations; QHS, TIW, BIW, i/d and x3d: from memory of the same list",
  rows: ["error-prone-notation QD", "error-prone-notation QOD", "error-prone-notation degree-hour"],
  bad: example(["  light          not-sensitive", '  light          not-sensitive\n  note           "Given QD."']),
  good: example(["  light          not-sensitive", '  light          not-sensitive\n  note           "Given daily."']),
  find: (context) => inPrintedText(context, patterns),
  say: sayPrinted,
  fixes: writeOut,
});
