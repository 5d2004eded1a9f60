/**
 * A file's text with its lines. A line ends at LF, CR or CRLF, as in the language itself; U+2028 and the like end no line.
 * Offsets and columns count UTF-16 code units.
 */
import type { Span } from "../../shared/finding.ts";
import type { ReportPlace } from "../../shared/report.ts";

export class SourceText {
  private starts: number[] | undefined;

  constructor(readonly text: string) {}

  private lineStarts(): number[] {
    if (this.starts) return this.starts;
    const starts = [0];
    for (const match of this.text.matchAll(/\r\n|\n|\r/g)) starts.push(match.index + match[0].length);
    this.starts = starts;
    return starts;
  }

  /** Line and column (from 1) of an offset; offsets beyond the end are the end. */
  position(offset: number): { line: number; column: number } {
    const starts = this.lineStarts();
    const at = Math.max(0, Math.min(offset, this.text.length));
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: at - starts[low]! + 1 };
  }

  /** The line (from 1) without its ending. */
  line(number: number): string {
    const starts = this.lineStarts();
    const start = starts[number - 1];
    if (start === undefined) return "";
    return this.text.slice(start, starts[number] ?? this.text.length).replace(/[\r\n]+$/, "");
  }
}

/** Texts by the name under which the engine knows them. */
export type SourceTexts = ReadonlyMap<string, SourceText>;

/** Lines and columns of a span. A file without text (not UTF-8, built in) has only its first place. */
export function placeOf(span: Span, texts: SourceTexts): ReportPlace {
  const { file, start, end } = span;
  const source = texts.get(file);
  if (!source) return { file, start, end, line: 1, column: 1, endLine: 1, endColumn: 1 };
  const from = source.position(start);
  const to = source.position(Math.max(start, end));
  return { file, start, end, line: from.line, column: from.column, endLine: to.line, endColumn: to.column };
}
