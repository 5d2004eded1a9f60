/**
 * Places in a text as line and column. Columns are counted in the unit that the asker names: UTF-16 code units (editors'
 * default, SARIF), UTF-8 bytes, or UTF-32 code points. A line ends with LF, CR or CRLF, as in the lexer.
 */
export type ColumnUnit = "utf-16" | "utf-8" | "utf-32";

/** Both count from zero. */
export interface LinePlace {
  line: number;
  character: number;
}

/** Offset of the first character of the line that holds an offset, without an index of all lines. */
export function lineStartAt(text: string, at: number): number {
  const feed = at <= 0 ? 0 : text.lastIndexOf("\n", at - 1) + 1;
  return feed + text.slice(feed, at).lastIndexOf("\r") + 1;
}

/** Offset of the end of the line that holds an offset, before its newline. */
export function lineEndAt(text: string, at: number): number {
  const feed = text.indexOf("\n", at);
  const stop = feed < 0 ? text.length : feed;
  const back = text.slice(at, stop).indexOf("\r");
  return back < 0 ? stop : at + back;
}

export class LineIndex {
  private readonly starts: number[] = [0];
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
    for (let at = 0; at < text.length; at++) {
      const c = text.charCodeAt(at);
      if (c === 10 || (c === 13 && text.charCodeAt(at + 1) !== 10)) this.starts.push(at + 1);
    }
  }

  get lineCount(): number {
    return this.starts.length;
  }

  /** Offset (UTF-16) of the first character of a line; past the last line, the end of the text. */
  lineStart(line: number): number {
    return this.starts[Math.max(0, line)] ?? this.text.length;
  }

  /** Offset of the end of a line, before its newline. */
  lineEnd(line: number): number {
    let end = this.lineStart(line + 1);
    const start = this.lineStart(line);
    if (end > start && this.text.charCodeAt(end - 1) === 10 && line + 1 < this.lineCount) end--;
    if (end > start && this.text.charCodeAt(end - 1) === 13 && line + 1 < this.lineCount) end--;
    return end;
  }

  lineText(line: number): string {
    return this.text.slice(this.lineStart(line), this.lineEnd(line));
  }

  /** The place of an offset; an offset outside the text is moved to its nearest end. */
  place(offset: number, unit: ColumnUnit = "utf-16"): LinePlace {
    const at = Math.min(Math.max(0, offset), this.text.length);
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    const start = this.starts[low]!;
    return { line: low, character: unit === "utf-16" ? at - start : columns(this.text, start, at, unit) };
  }

  /** The offset of a place; a column past the end of its line is moved to the end, one inside a character to its start. */
  offset(place: LinePlace, unit: ColumnUnit = "utf-16"): number {
    if (place.line >= this.lineCount) return this.text.length;
    if (place.line < 0) return 0;
    const start = this.lineStart(place.line);
    const end = this.lineEnd(place.line);
    if (unit === "utf-16") return Math.min(start + Math.max(0, place.character), end);
    let at = start;
    let column = 0;
    while (at < end) {
      const { length, width } = character(this.text, at, unit);
      if (column + width > place.character) break;
      column += width;
      at += length;
    }
    return at;
  }
}

function columns(text: string, start: number, end: number, unit: ColumnUnit): number {
  let column = 0;
  for (let at = start; at < end; ) {
    const { length, width } = character(text, at, unit);
    // An offset between the halves of a pair counts as before the pair.
    if (at + length > end) break;
    column += width;
    at += length;
  }
  return column;
}

/** UTF-16 length of the character at an offset and its width in the unit; a lone half of a pair is written as U+FFFD, three bytes. */
function character(text: string, at: number, unit: ColumnUnit): { length: number; width: number } {
  const c = text.codePointAt(at)!;
  const length = c > 0xffff ? 2 : 1;
  if (unit === "utf-32") return { length, width: 1 };
  if (unit === "utf-16") return { length, width: length };
  return { length, width: c < 0x80 ? 1 : c < 0x800 ? 2 : c > 0xffff ? 4 : 3 };
}
