import type { ChunkReading } from "../../model/declaration.ts";
import { chunkCheck } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { example } from "../example.ts";
import { problemsNamed } from "../problems.ts";
import { faultyTokens } from "./figures.ts";
import { inPrintedText, type Pattern, type PrintedFault, sayPrinted, writeOut } from "./printed-text.ts";

/** In printed text. */
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
  { pattern: /≥(?= ?\d)/g, meanings: ["at least "], detail: "The sign is taken for its opposite." },
  { pattern: /≤(?= ?\d)/g, meanings: ["at most "], detail: "The sign is taken for its opposite." },
  {
    pattern: /↑/g,
    meanings: ["increase"],
    detail: "The arrow is taken for its opposite, and read as the figure 4 or 7.",
  },
  {
    pattern: /↓/g,
    meanings: ["decrease"],
    detail: "The arrow is taken for its opposite, and read as the figure 4 or 7.",
  },
  {
    pattern: /∅|Ø(?! ?\d)(?!\p{L})/gu,
    meanings: ["no"],
    detail: "The sign has been read as the figures 0, 4, 6, 8 and 9.",
  },
  // The charge of an ion, `Mg2+ 16 mmol`, is no sum.
  {
    pattern: /(?<!\b(?:Na|K|Li|NH4|H|(?:Mg|Ca|Zn|Cu|Fe|Mn)[23]?)\+?)(?<=[\dA-Za-z] ?)\+(?= ?\d)/g,
    meanings: [" and "],
    detail: "The sign has been read as the figure 4.",
  },
];

export const signForWord = chunkCheck<PrintedFault & { word: string; inStatement?: true }>({
  name: "sign-for-word",
  family: "notation",
  severity: "warning",
  title: "A sign where a word belongs",
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
    yield* limitSigns(context);
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
  say: (found) => (found.inStatement ? { text: saysInstead(found) } : sayPrinted(found)),
  fixes: (found) => [{ ...writeOut(found)[0]!, edits: [{ at: found.at, text: found.word }] }],
});

/** Limits: the sign is read as its word. Other signs (`@`, `×`) that are read are told by `capital-letters`. */
const limits: Readonly<Record<string, string>> = {
  "<": "below",
  ">": "above",
  "≤": "up to",
  "<=": "up to",
  "≥": "from",
  ">=": "from",
};

function* limitSigns({ reading, chunk }: ChunkContext): Iterable<PrintedFault & { word: string; inStatement: true }> {
  for (const { kind, text, start, end } of faultyTokens(reading)) {
    const meant = kind === "faulty" ? limits[text] : undefined;
    // Where the line does not fit at the sign, another word belongs there.
    if (meant === undefined || isMisfitAt(reading, start)) continue;
    const word = chunk.text[end] === " " ? meant : `${meant} `;
    const detail = "The sign is taken for its opposite.";
    yield { at: { start, end }, written: text, meanings: [meant], detail, word, inStatement: true };
  }
}

function isMisfitAt(reading: ChunkReading, start: number): boolean {
  const misfits = [...problemsNamed(reading, "fact-not-understood"), ...problemsNamed(reading, "step-not-understood")];
  return misfits.some(({ at }) => at.start === start);
}

function saysInstead({ written, detail, meanings }: PrintedFault): string {
  return `\`${written}\` stands for a word. ${detail} Write \`${meanings[0]}\`.`;
}
