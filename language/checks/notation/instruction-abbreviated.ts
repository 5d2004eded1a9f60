import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inPrintedText, type Pattern, sayPrinted, writeOut } from "./printed-text.ts";

const patterns: readonly Pattern[] = [
  {
    pattern: /\b(?:HS|hs)\b/g,
    meanings: ["half-strength", "at bedtime"],
    detail: "HS stands for half-strength and for bedtime.",
  },
  {
    pattern: /(?<![\w.])(?:OD|o\.d\.)(?!\w)/g,
    meanings: ["once daily", "right eye"],
    detail: "OD stands for once daily and for the right eye.",
  },
  { pattern: /\bBT\b/g, meanings: ["bedtime"], detail: "BT has been read as BID, twice daily." },
  {
    pattern: /\bss\b/g,
    meanings: ["sliding scale", "half"],
    detail: "ss stands for a sliding scale and for a half, and has been read as 55.",
  },
  {
    pattern: /\bD\/C\b/g,
    meanings: ["discharge", "discontinue"],
    detail: "D/C stands for discharge and for discontinue.",
  },
];

export const instructionAbbreviated = chunkCheck({
  name: "instruction-abbreviated",
  family: "notation",
  severity: "warning",
  title: "An abbreviation with two meanings in printed text",
  why: "Each of its meanings is read as the other.",
  source:
    "ISMP list, older edition (copy) (Institute for Safe Medication Practices); OD, BT and ss: table 1 of a study of high-risk abbreviations (BMJ Open)",
  rows: ["error-prone-notation HS", "error-prone-notation D-C"],
  bad: example(["  light          not-sensitive", '  light          not-sensitive\n  note           "Given HS."']),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Given at bedtime."',
  ]),
  find: (context) => inPrintedText(context, patterns),
  say: sayPrinted,
  fixes: writeOut,
});
