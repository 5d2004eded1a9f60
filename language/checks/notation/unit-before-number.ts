import { chunkCheck } from "../check.ts";
import type { ChunkContext } from "../context.ts";
import { example } from "../example.ts";
import { linesOf } from "./figures.ts";
import { inPrintedText, type Pattern, type PrintedFault, sayPrinted, writeOut } from "./printed-text.ts";
import { unitsAheadOfNumbers } from "./units-ahead.ts";

const patterns: readonly Pattern[] = [
  {
    // A figure before the unit makes it the unit of that figure: "4 g 100 mL" is two amounts.
    pattern:
      /(?<!\d ?)\b(?:kg|g|mg|mcg|mL|mmol|mEq) \d(?:[\d.,]*\d)?(?![\d.,]*\d)(?! ?(?:%|(?:kg|g|mg|mcg|mL|L|mmol|mEq|units?|h|min)\b))/g,
    meanings: ([text]) => [text.replace(/^(\S+) (\S+)$/, "$2 $1")],
    detail: "The unit follows the number.",
  },
];

export const unitBeforeNumber = chunkCheck({
  name: "unit-before-number",
  family: "notation",
  severity: "error",
  title: "A unit before its number",
  why: "The figure is taken for the next thing on the line.",
  source: "Medication dosage calculations: best practices (Canadian practical nurse college)",
  rows: ["error-prone-notation unit-before-number"],
  bad: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Packs of g 5 are out of use."',
  ]),
  good: example([
    "  light          not-sensitive",
    '  light          not-sensitive\n  note           "Packs of 5 g are out of use."',
  ]),
  find: (context) => [...inStatements(context), ...inPrintedText(context, patterns)],
  say: (found) =>
    "text" in found
      ? { text: `Written as \`${found.written}\`. ${found.detail} Write \`${found.meanings[0]}\`.` }
      : sayPrinted(found),
  fixes: writeOut,
});

/** `g 4` in a statement: the unit stands as a word, and the number behind it has none. */
function inStatements({ reading, chunk }: ChunkContext): (PrintedFault & { text: true })[] {
  return linesOf(reading).flatMap(({ tokens }) =>
    unitsAheadOfNumbers(tokens).map(({ start, end, unit, number }) => ({
      at: { start, end },
      written: chunk.text.slice(start, end),
      meanings: [`${number.text} ${unit.text}`],
      detail: "The unit follows the number.",
      text: true as const,
    })),
  );
}
