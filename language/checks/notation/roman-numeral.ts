import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inPrintedText, type Pattern, sayPrinted, writeOut } from "./printed-text.ts";

const numerals: Readonly<Record<string, string>> = {
  I: "1",
  II: "2",
  III: "3",
  IV: "4",
  V: "5",
  VI: "6",
  VII: "7",
  VIII: "8",
  IX: "9",
  X: "10",
  XX: "20",
};

const patterns: readonly Pattern[] = [
  {
    pattern:
      /\b(?:I|II|III|IV|V|VI|VII|VIII|IX|X|XX|i|ii|iii|iv|vi|vii|viii|ix|xx)(?= (?:g|mg|mcg|mL|tablets?|capsules?|drops?|vials?|ampoules?)\b)/g,
    meanings: ([text]) => [numerals[text.toUpperCase()]!],
    detail: "Roman numerals are read as letters or as the wrong number.",
  },
];

export const romanNumeral = chunkCheck({
  name: "roman-numeral",
  family: "notation",
  severity: "warning",
  title: "An amount in Roman numerals in printed text",
  why: "Roman numerals are read as letters or as the wrong number.",
  source: "Error-prone dose designations chart reproducing the ISMP list (monthly prescribing reference)",
  rows: ["error-prone-notation roman-numerals"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Packs of V mg are out of use."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Packs of 5 mg are out of use."',
  ]),
  find: (context) => inPrintedText(context, patterns),
  say: sayPrinted,
  fixes: writeOut,
});
