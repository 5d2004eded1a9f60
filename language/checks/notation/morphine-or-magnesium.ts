import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inNames, inPrintedText, type Pattern, sayPrintedOrName, writeOut } from "./printed-text.ts";

const patterns: readonly Pattern[] = [
  { pattern: /\bMgSO4\b/gi, meanings: ["magnesium sulfate"], detail: "MgSO4 and MSO4 are taken for each other." },
  { pattern: /\bMSO4\b/gi, meanings: ["morphine sulfate"], detail: "MSO4 and MgSO4 are taken for each other." },
  {
    pattern: /\bMS(?= \d)/g,
    meanings: ["morphine sulfate", "magnesium sulfate"],
    detail: "MS has been read as morphine sulfate and as magnesium sulfate.",
  },
];

const inNamesShort = { mgso4: ["magnesium sulfate"], mso4: ["morphine sulfate"] };

export const morphineOrMagnesium = chunkCheck({
  name: "morphine-or-magnesium",
  family: "notation",
  severity: "error",
  title: "An abbreviation that stands for morphine or for magnesium",
  why: "Morphine has been given for magnesium, and the other way round.",
  source: "Official Do Not Use list (The Joint Commission)",
  rows: ["error-prone-notation MS", "error-prone-notation MSO4-MgSO4"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Not to be given with MgSO4."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Not to be given with magnesium sulfate."',
  ]),
  find: (context) => [...inNames(context, inNamesShort), ...inPrintedText(context, patterns)],
  say: sayPrintedOrName,
  fixes: writeOut,
});
