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
    pattern: /(?<![\w.])(?:OD|od|O\.D\.|o\.d\.)(?![\w-])/g,
    meanings: ["once daily", "right eye"],
    detail: "OD stands for once daily and for the right eye.",
  },
  ...sides([
    ["OS", "left eye"],
    ["OU", "both eyes"],
    ["AD", "right ear"],
    ["AS", "left ear"],
    ["AU", "both ears"],
  ]),
  {
    pattern: /\bUD\b/g,
    meanings: ["as directed"],
    detail: "UD stands for as directed, and has been read as unit dose.",
  },
  {
    pattern: /\bSS(?:RI|I)\b/g,
    meanings: ["sliding scale insulin", "surgical site infection"],
    detail: "SSI stands for a sliding scale of insulin and for an infection, and has been read as strong iodine.",
  },
  { pattern: /\bBT\b/g, meanings: ["bedtime"], detail: "BT has been read as BID, twice daily." },
  {
    pattern: /\bss\b/g,
    meanings: ["sliding scale", "half"],
    detail: "ss stands for a sliding scale and for a half, and has been read as 55.",
  },
  {
    pattern: /\b[Dd]\/[Cc]\b/g,
    meanings: ["discharge", "discontinue"],
    detail: "D/C stands for discharge and for discontinue.",
  },
];

/** Among words in capitals `AS` is a word, and behind `ward` or `unit` two letters name a place. */
function sides(rows: readonly (readonly [short: string, side: string])[]): Pattern[] {
  return rows.map(([short, side]) => ({
    pattern: new RegExp(`(?<![\\w.]|[A-Z]{2} |(?:[Ww]ard|[Uu]nit|[Rr]oom|[Aa]rea) )${short}(?![\\w-]| [A-Z]{2})`, "g"),
    meanings: [side],
    detail: "Letters for an eye and for an ear are read for each other.",
  }));
}

export const instructionAbbreviated = chunkCheck({
  name: "instruction-abbreviated",
  family: "notation",
  severity: "warning",
  title: "An abbreviation with two meanings in printed text",
  why: "Each of its meanings is read as the other.",
  source:
    "ISMP list, older edition (copy) (Institute for Safe Medication Practices), letters for eyes and ears too; UD, SSI and SSRI: from memory of the same list; OD, BT and ss: table 1 of a study of high-risk abbreviations (BMJ Open)",
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
