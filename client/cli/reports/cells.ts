/** How a line stands on a terminal: which cells each character takes. */
import { eastAsianWidth } from "get-east-asian-width";
import { emoji, plain, visible } from "./visible.ts";

/** What a reader sees as one character, with the place it has in the line and the cells it takes. */
export interface Glyph {
  /** As shown; never a control character. */
  shown: string;
  /** UTF-16 offset in the line. */
  start: number;
  end: number;
  cells: number;
}

const tabStop = 4;
const markOnly = /^[\p{Mn}\p{Me}]+$/u;
let segmenter: Intl.Segmenter | undefined;

/** One line (no line endings) as glyphs; tabs become blanks up to the next of every four cells. */
export function glyphsOf(line: string): Glyph[] {
  const glyphs: Glyph[] = [];
  let cells = 0;
  for (const { text, start } of segmentsOf(line)) {
    const glyph = glyphOf(text, start, cells);
    cells += glyph.cells;
    glyphs.push(glyph);
  }
  return glyphs;
}

function* segmentsOf(line: string): Iterable<{ text: string; start: number }> {
  if (plain.test(line)) {
    for (let i = 0; i < line.length; i++) yield { text: line[i]!, start: i };
    return;
  }
  segmenter ??= new Intl.Segmenter("en", { granularity: "grapheme" });
  for (const { segment, index } of segmenter.segment(line)) yield { text: segment, start: index };
}

function glyphOf(text: string, start: number, at: number): Glyph {
  const end = start + text.length;
  if (text === "\t") {
    const cells = tabStop - (at % tabStop);
    return { shown: " ".repeat(cells), start, end, cells };
  }
  const shown = visible(text);
  // Replaced signs are plain letters, so that their cells are known.
  const cells = shown === text ? cellsOf(text) : [...shown].length;
  return { shown, start, end, cells };
}

function cellsOf(grapheme: string): number {
  if (emoji.test(grapheme)) return 2;
  if (markOnly.test(grapheme)) return 0;
  const widths = [...grapheme].filter((c) => !markOnly.test(c)).map((c) => eastAsianWidth(c.codePointAt(0)!));
  return Math.max(1, ...widths);
}
