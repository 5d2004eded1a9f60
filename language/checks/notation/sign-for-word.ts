import { chunkCheck } from "../check.ts";
import { example } from "../example.ts";
import { inPrintedText, type Pattern, type PrintedFault, sayPrinted, writeOut } from "./printed-text.ts";

/** In printed text; a sign in a statement is read as its word and named by `capital-letters`. */
const patterns: readonly Pattern[] = [
  { pattern: /@/g, meanings: ["at"], detail: "The sign has been read as the figure 2." },
  { pattern: /&/g, meanings: ["and"], detail: "The sign has been read as the figure 2." },
  {
    pattern: />(?= ?\d)/g,
    meanings: ["above "],
    detail: "The sign is taken for its opposite or read as the figure 7.",
  },
  {
    pattern: /<(?= ?\d)/g,
    meanings: ["below "],
    detail: "The sign is taken for its opposite; <10 has been read as 40.",
  },
  { pattern: /(?<=[\dA-Za-z] ?)\+(?= ?\d)/g, meanings: [" and "], detail: "The sign has been read as the figure 4." },
];

export const signForWord = chunkCheck<PrintedFault & { word: string }>({
  name: "sign-for-word",
  family: "notation",
  severity: "warning",
  title: "A sign where a word belongs, in printed text",
  why: "Signs are taken for figures or for each other.",
  source:
    "Official Do Not Use list: additional abbreviations for possible future inclusion (The Joint Commission); ISMP list as printed in a nursing journal (Nephrology Nursing Journal)",
  rows: [
    "error-prone-notation at-sign",
    "error-prone-notation greater-less",
    "error-prone-notation less-than-joined",
    "error-prone-notation ampersand",
    "error-prone-notation plus",
  ],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Flush before & after."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Flush before and after."',
  ]),
  *find(context) {
    for (const found of inPrintedText(context, patterns)) {
      const { start, end } = found.at;
      const text = context.chunk.text;
      const ahead = text[start - 1] === " ";
      const behind = text[end] === " ";
      const [meant = ""] = found.meanings;
      const word = `${ahead || text[start - 1] === '"' ? "" : " "}${meant.trim()}${behind ? "" : " "}`;
      yield { ...found, meanings: [meant.trim()], word };
    }
  },
  say: sayPrinted,
  fixes: (found) => [{ ...writeOut(found)[0]!, edits: [{ at: found.at, text: found.word }] }],
});
