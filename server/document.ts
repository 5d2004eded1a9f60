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
    /** Whether a change of the editor was lost, so that the text is not what the author sees. */
    readonly isBehind = false,
  ) {}

  /** What the text would be as a file: a check would not read it where it holds a zero or is too large. Undefined for one that it would read. */
  get unfit(): Source | undefined {
    if (this.isBehind) return behind;
    this.fitness ??= { unfit: isSurely(this.text) ? undefined : asRead(this.text) };
    return this.fitness.unfit;
  }

  get lines(): LineIndex {
    this.index ??= new LineIndex(this.text);
    return this.index;
  }

  /** A text to be put in, its lines ending as those of this one: not every editor sees to that. */
  lineEndsIn(text: string): string {
    if (!text.includes("\n")) return text;
    return text.replace(/\r\n|\n/g, /\r\n|\r|\n/.exec(this.text)?.[0] ?? "\n");
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
  changed(version: number | null, changes: readonly TextDocumentContentChangeEvent[]): Document {
    let text = this.text;
    let lines: LineIndex | undefined = this.lines;
    let { isBehind } = this;
    for (const change of changes) {
      // Editors without a word for "none" send null.
      if (!("range" in change) || !change.range) {
        text = change.text;
        isBehind = false;
      } else {
        lines ??= new LineIndex(text);
        const start = lines.offset(change.range.start, this.unit);
        const end = Math.max(start, lines.offset(change.range.end, this.unit));
        text = text.slice(0, start) + change.text + text.slice(end);
      }
      lines = undefined;
    }
    return new Document(this.key, this.uri, version, text, this.unit, isBehind);
  }

  /** The same text, known to be another than the author sees. A change of the whole text sets it right. */
  leftBehind(): Document {
    return new Document(this.key, this.uri, this.version, this.text, this.unit, true);
  }
}

const behind: Source = {
  kind: "unreadable",
  name: "file-not-read",
  reason:
    "A change of this text could not be taken in, so what is known of it is not what you see, and it is not checked. Close it and open it again.",
};

function asRead(text: string): Source | undefined {
  const source = sourceOf(decodeBytes(new TextEncoder().encode(text)));
  return source.kind === "unreadable" ? source : undefined;
}
