import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inPrintedText, type Pattern, sayPrinted, writeOut } from "./printed-text.ts";

const patterns: readonly Pattern[] = [
  {
    pattern: /\b[A-Za-z]{4,}\d[\d,.]* ?(?:kg|g|mg|mcg|mL|mmol|mEq|units?)\b/g,
    meanings: ([text]) => [text.replace(/^([A-Za-z]+)/, "$1 ")],
    detail: "The last letter of the name can be read as the first figure of the dose.",
  },
];

export const nameRunIntoDose = chunkCheck({
  name: "name-run-into-dose",
  family: "notation",
  severity: "warning",
  title: "A drug name and its dose without a blank",
  why: "The last letter of the name is taken for a figure: l40 for 140.",
  source: "ISMP list, older edition (reproduced) (Institute for Safe Medication Practices)",
  rows: ["error-prone-notation run-together-name-dose"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Not for propranolol40 mg."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Not for propranolol 40 mg."',
  ]),
  find: (context) => inPrintedText(context, patterns),
  say: sayPrinted,
  fixes: writeOut,
});
