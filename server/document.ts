/** The text of one file at one version, with its lines. Never changed in place: a new version is a new document. */

import type { Position, Range, TextDocumentContentChangeEvent } from "vscode-languageserver-protocol";
import { decodeBytes, isSurely } from "../language/syntax/decode.ts";
import { type ColumnUnit, LineIndex } from "../language/syntax/lines.ts";
import { type Source, sourceOf } from "./host.ts";

export class Document {
  private index: LineIndex | undefined;
  private fitness: { unfit: Source | undefined } | undefined;

  constructor(
    readonly key: string,
    readonly uri: string,
    /** The editor's number; null for a closed file. */
    readonly version: number | null,
    readonly text: string,
    readonly unit: ColumnUnit,
  ) {}

  /** What the text would be as a file: a check would not read it where it holds a zero or is too large. Undefined for one that it would read. */
  get unfit(): Source | undefined {
    this.fitness ??= { unfit: isSurely(this.text) ? undefined : asRead(this.text) };
    return this.fitness.unfit;
  }

  get lines(): LineIndex {
    this.index ??= new LineIndex(this.text);
    return this.index;
  }

  offset(position: Position): number {
    return this.lines.offset(position, this.unit);
  }

  position(offset: number): Position {
    return this.lines.place(offset, this.unit);
  }

  range(spot: { start: number; end: number }): Range {
    return { start: this.position(spot.start), end: this.position(Math.max(spot.start, spot.end)) };
  }

  /** The text after the editor's changes, each of which speaks of the text that the one before it left. */
  changed(version: number, changes: readonly TextDocumentContentChangeEvent[]): Document {
    let text = this.text;
    let lines: LineIndex | undefined = this.lines;
    for (const change of changes) {
      if (!("range" in change)) {
        text = change.text;
      } else {
        lines ??= new LineIndex(text);
        const start = lines.offset(change.range.start, this.unit);
        const end = Math.max(start, lines.offset(change.range.end, this.unit));
        text = text.slice(0, start) + change.text + text.slice(end);
      }
      lines = undefined;
    }
    return new Document(this.key, this.uri, version, text, this.unit);
  }
}

function asRead(text: string): Source | undefined {
  const source = sourceOf(decodeBytes(new TextEncoder().encode(text)));
  return source.kind === "unreadable" ? source : undefined;
}
