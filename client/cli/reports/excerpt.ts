/** The author's own line with the place underlined, cut to the width at hand. */
import type { ReportPlace } from "../../../shared/report.ts";
import type { SourceText } from "../source-text.ts";
import { type Glyph, glyphsOf } from "./cells.ts";

export interface Excerpt {
  lineNumber: number;
  line: string;
  /** Blanks and carets under the line; at least one caret. */
  carets: string;
  /** Last line of a place that runs over several. */
  until: number | undefined;
}

const cut = "…";

/** `width`: cells for the line, at least 20. Long lines show the part around the place. */
export function excerptOf(place: ReportPlace, source: SourceText, width: number): Excerpt {
  const text = source.line(place.line);
  const start = place.column - 1;
  const isLonger = place.endLine > place.line;
  const end = isLonger ? text.length : place.endColumn - 1;
  const { line, carets } = underlined(nearby(text, start), start, end, Math.max(20, width));
  return { lineNumber: place.line, line, carets, until: isLonger ? place.endLine : undefined };
}

// A line of megabytes is not taken apart character by character: this many code units around the place are enough for any terminal.
const reach = 2000;

interface Piece {
  text: string;
  offset: number;
  cutBefore: boolean;
  cutAfter: boolean;
}

function nearby(text: string, start: number): Piece {
  const from = start <= reach ? 0 : start - reach;
  const to = Math.min(text.length, start + reach);
  // Never begin or end in the middle of a surrogate pair.
  const safeFrom = isLowHalf(text, from) ? from + 1 : from;
  const safeTo = isLowHalf(text, to) ? to - 1 : to;
  return {
    text: text.slice(safeFrom, safeTo),
    offset: safeFrom,
    cutBefore: safeFrom > 0,
    cutAfter: safeTo < text.length,
  };
}

function isLowHalf(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return at > 0 && code >= 0xdc00 && code < 0xe000;
}

function underlined(piece: Piece, start: number, end: number, width: number): { line: string; carets: string } {
  const glyphs = glyphsOf(piece.text).map((g) => ({ ...g, start: g.start + piece.offset, end: g.end + piece.offset }));
  const { from, to } = windowOf(glyphs, start, end, width);
  const shown = glyphs.slice(from, to);
  const before = piece.cutBefore || from > 0 ? cut : "";
  const after = piece.cutAfter || to < glyphs.length ? cut : "";
  let carets = before ? " " : "";
  let marked = 0;
  for (const glyph of shown) {
    const isIn = glyph.start < Math.max(end, start + 1) && glyph.end > start;
    if (isIn) marked += glyph.cells;
    carets += (isIn ? "^" : " ").repeat(glyph.cells);
  }
  // An empty place, or one at the end of the line, has no glyph: one caret where it would be.
  carets = marked > 0 ? carets.trimEnd() : `${carets}^`;
  return { line: `${before}${shown.map((g) => g.shown).join("")}${after}`.trimEnd(), carets };
}

/** Glyphs that fit: from the line's beginning if the place is then in sight, else with a third of the width before it. */
function windowOf(glyphs: readonly Glyph[], start: number, end: number, width: number): { from: number; to: number } {
  const room = width - 2; // for the two signs of cutting
  const first = glyphs.findIndex((g) => g.end > start);
  const place = first < 0 ? glyphs.length : first;
  let upToEnd = 0;
  for (const glyph of glyphs) {
    if (glyph.start >= Math.max(end, start + 1)) break;
    upToEnd += glyph.cells;
  }
  let from = 0;
  if (upToEnd > room) {
    let left = Math.floor(room / 3);
    from = place;
    while (from > 0 && left >= glyphs[from - 1]!.cells) left -= glyphs[--from]!.cells;
  }
  let to = from;
  for (let used = 0; to < glyphs.length && used + glyphs[to]!.cells <= room; to++) used += glyphs[to]!.cells;
  return { from, to };
}
