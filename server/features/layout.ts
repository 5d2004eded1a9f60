/** Folding, selection, and the canonical layout (whole, range, on a new line). */
import {
  type DocumentFormattingParams,
  type DocumentOnTypeFormattingParams,
  type DocumentRangeFormattingParams,
  type DocumentRangesFormattingParams,
  type FoldingRange,
  FoldingRangeKind,
  type FoldingRangeParams,
  type SelectionRange,
  type SelectionRangeParams,
  type TextEdit,
} from "vscode-languageserver-protocol";
import { folds, selectionAround } from "../../language/answers/stretches.ts";
import { formatEdits, formatRange } from "../../language/syntax/formatter.ts";
import type { Document } from "../document.ts";
import type { Answer } from "../serving.ts";
import { inFile } from "./at.ts";

export const foldingRanges: Answer<FoldingRangeParams, FoldingRange[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  return folds(at.library, at.key).flatMap((fold) => {
    const { start, end } = at.document.range(fold);
    // The line of the closing brace stays in sight.
    const endLine = fold.kind === "block" ? end.line - 1 : end.line;
    if (endLine <= start.line) return [];
    return [{ startLine: start.line, endLine, ...(fold.kind === "comment" ? { kind: FoldingRangeKind.Comment } : {}) }];
  });
};

export const selectionRanges: Answer<SelectionRangeParams, SelectionRange[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  return params.positions.map((position) => {
    const spots = selectionAround(at.library, at.key, at.document.offset(position));
    return spots.reduceRight<SelectionRange | undefined>(
      (parent, spot) => ({ range: at.document.range(spot), ...(parent ? { parent } : {}) }),
      undefined,
    )!;
  });
};

function editsOf(document: Document, edits: readonly { start: number; end: number; text: string }[]): TextEdit[] {
  return edits.map((e) => ({ range: document.range(e), newText: e.text }));
}

export const formatting: Answer<DocumentFormattingParams, TextEdit[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  return at ? editsOf(at.document, formatEdits(at.document.text)) : null;
};

export const rangeFormatting: Answer<DocumentRangeFormattingParams, TextEdit[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const range = { start: at.document.offset(params.range.start), end: at.document.offset(params.range.end) };
  return editsOf(at.document, formatRange(at.document.text, range));
};

export const rangesFormatting: Answer<DocumentRangesFormattingParams, TextEdit[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const all = formatEdits(at.document.text);
  const ranges = params.ranges.map((r) => ({ start: at.document.offset(r.start), end: at.document.offset(r.end) }));
  return editsOf(
    at.document,
    all.filter((e) => ranges.some((r) => e.start <= r.end && e.end >= r.start)),
  );
};

/** On a new line the line just finished is laid out; the one being begun is left to the editor. */
export const onTypeFormatting: Answer<DocumentOnTypeFormattingParams, TextEdit[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at || params.position.line === 0) return null;
  const { lines, text } = at.document;
  const line = params.ch === "\n" ? params.position.line - 1 : params.position.line;
  const range = { start: lines.lineStart(line), end: lines.lineEnd(line) };
  const first = text.slice(range.start, range.end).search(/\S/);
  if (first < 0) return [];
  const edits = formatRange(text, { start: range.start + first, end: range.end });
  return editsOf(
    at.document,
    edits.filter((e) => e.start >= range.start && e.end <= range.end),
  );
};
