/**
 * The canonical layout. It changes blanks only: no token, comment or notation is altered, moved or joined, because whatever
 * changes meaning belongs to a finding and its fix. Formatting twice changes nothing.
 */
import { parseChunk } from "./parser.ts";
import { rowText } from "./row-layout.ts";
import { type Row, rowsOf } from "./rows.ts";
import type { Entry, Tree } from "./tree.ts";

/** Replaces `start` to `end` (UTF-16 offsets, `end` exclusive) by `text`. */
export interface TextEdit {
  start: number;
  end: number;
  text: string;
}

/** A whole file in canonical layout, with the newline that it uses first. A file of blanks only becomes the empty file. */
export function formatText(text: string): string {
  return applied(text, formatEdits(text));
}

function applied(text: string, edits: readonly TextEdit[]): string {
  const parts: string[] = [];
  let at = 0;
  for (const edit of edits) {
    parts.push(text.slice(at, edit.start), edit.text);
    at = edit.end;
  }
  parts.push(text.slice(at));
  return parts.join("");
}

/** The edits that lay out the rows touching the range, and the blanks before each of them; all others stay untouched. */
export function formatRange(text: string, range: { start: number; end: number }): TextEdit[] {
  return formatEdits(text).filter((edit) => edit.start <= range.end && edit.end >= range.start);
}

/** All edits, in order and apart from each other; none where the text is canonical already. */
export function formatEdits(text: string): TextEdit[] {
  const tree = parseChunk(text);
  if (tree.problems[0]?.name === "text-too-long") return [];
  const rows = rowsOf(tree);
  const newline = /\r\n|\r|\n/.exec(text)?.[0] ?? "\n";
  const edits: TextEdit[] = [];
  const replace = (start: number, end: number, by: string) => {
    if (text.slice(start, end) !== by) edits.push({ start, end, text: by });
  };
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let before: Row | undefined;
  for (const row of rows) {
    const newlines = before ? newlinesBetween(before, row, text.slice(at, row.start)) : 0;
    replace(at, row.start, newline.repeat(newlines) + indentation(row));
    replace(row.start, row.end, rowText(text, row));
    at = row.end;
    before = row;
  }
  replace(at, text.length, before ? newline : "");
  // A head moves into column 1 where it stands outside all blocks; with braces missing that could end what was open before.
  return tree.problems.length === 0 || saysTheSame(tree, applied(text, edits)) ? edits : [];
}

/** Whether what is laid out is read as what was written: the same blocks around the same words. */
function saysTheSame(before: Tree, text: string): boolean {
  const after = parseChunk(text);
  const told = (tree: Tree) => [tree.entries.map(outlineOf), tree.problems.map((p) => p.name)];
  return JSON.stringify(told(before)) === JSON.stringify(told(after));
}

type Outline = readonly [string, string, ...Outline[]] | string;

function outlineOf(entry: Entry): Outline {
  const line = entry.kind === "line" ? entry : entry.head;
  const words = line.tokens.map((t) => t.text).join(" ");
  if (entry.kind === "line") return words;
  return [words, `${entry.readAs ?? ""}${entry.open.text}${entry.close?.text ?? ""}`, ...entry.body.map(outlineOf)];
}

function indentation(row: Row): string {
  return "  ".repeat(row.depth + (row.role === "continuation" ? 1 : 0));
}

/** One blank line at most; exactly one after a declaration and before the next; none inside the braces' edges. */
function newlinesBetween(before: Row, row: Row, gap: string): number {
  if (row.role === "continuation") return 1;
  const written = gap.match(/\r\n|\r|\n/g)?.length ?? 0;
  if (row.depth === 0 && row.role !== "close" && endsDeclaration(before, row)) return 2;
  if (opensBlock(before) || row.role === "close") return 1;
  return Math.min(written, 2);
}

function opensBlock(row: Row): boolean {
  return row.tokens[row.tokens.length - 1]?.kind === "open";
}

/** Between top-level rows: after a closing brace always, before a head unless its own comment stands above it. */
function endsDeclaration(before: Row, row: Row): boolean {
  if (before.depth === 0 && before.role === "close") return true;
  return row.role === "head" && before.role !== "comment";
}
