/**
 * Answers held against the message model: the validators that vscode-languageserver-types ships with its types, and what they leave
 * out (whole numbers, no `undefined` turned into null, tokens in fives).
 */

import { expect } from "vitest";
import * as types from "vscode-languageserver-types";

type Is = (value: unknown) => boolean;
const listOf =
  (is: Is): Is =>
  (v) =>
    Array.isArray(v) && v.every(is);
const orNull =
  (is: Is): Is =>
  (v) =>
    v === null || is(v);
const object = (v: unknown): v is Record<string, unknown> => typeof v === "object" && v !== null && !Array.isArray(v);
const command: Is = (v) => object(v) && typeof v.title === "string" && typeof v.command === "string";
const report: Is = (v) =>
  object(v) &&
  ((v.kind === "full" && listOf(types.Diagnostic.is)(v.items)) ||
    (v.kind === "unchanged" && typeof v.resultId === "string"));
const tokens: Is = (v) =>
  object(v) && Array.isArray(v.data) && v.data.length % 5 === 0 && v.data.every((n) => Number.isInteger(n) && n >= 0);
const hierarchyItem: Is = (v) =>
  object(v) &&
  typeof v.name === "string" &&
  typeof v.uri === "string" &&
  types.Range.is(v.range) &&
  types.Range.is(v.selectionRange);
const selection: Is = (v) => types.SelectionRange.is(v) || (object(v) && types.Range.is(v.range));

const results: Readonly<Record<string, Is>> = {
  "textDocument/hover": orNull(types.Hover.is),
  "textDocument/completion": (v) => object(v) && typeof v.isIncomplete === "boolean" && listOf(completionItem)(v.items),
  "completionItem/resolve": completionItem,
  "textDocument/signatureHelp": orNull(
    (v) => object(v) && listOf((s) => object(s) && typeof s.label === "string")(v.signatures),
  ),
  "textDocument/definition": orNull(listOf(types.Location.is)),
  "textDocument/declaration": orNull(listOf(types.Location.is)),
  "textDocument/typeDefinition": orNull(listOf(types.Location.is)),
  "textDocument/references": orNull(listOf(types.Location.is)),
  "textDocument/documentHighlight": orNull(listOf((v) => object(v) && types.Range.is(v.range))),
  "textDocument/documentSymbol": orNull(listOf(types.DocumentSymbol.is)),
  "workspace/symbol": orNull(listOf((v) => object(v) && typeof v.name === "string" && types.Location.is(v.location))),
  "textDocument/codeAction": orNull(listOf(types.CodeAction.is)),
  "codeAction/resolve": types.CodeAction.is,
  "textDocument/codeLens": orNull(listOf(types.CodeLens.is)),
  "codeLens/resolve": (v) => types.CodeLens.is(v) && command((v as types.CodeLens).command),
  "textDocument/documentLink": orNull(listOf(types.DocumentLink.is)),
  "textDocument/formatting": orNull(listOf(types.TextEdit.is)),
  "textDocument/rangeFormatting": orNull(listOf(types.TextEdit.is)),
  "textDocument/rangesFormatting": orNull(listOf(types.TextEdit.is)),
  "textDocument/onTypeFormatting": orNull(listOf(types.TextEdit.is)),
  "textDocument/prepareRename": types.Range.is,
  "textDocument/rename": types.WorkspaceEdit.is,
  "textDocument/foldingRange": orNull(listOf(types.FoldingRange.is)),
  "textDocument/selectionRange": orNull(listOf(selection)),
  "textDocument/prepareCallHierarchy": orNull(listOf(hierarchyItem)),
  "callHierarchy/incomingCalls": orNull(
    listOf((v) => object(v) && hierarchyItem(v.from) && listOf(types.Range.is)(v.fromRanges)),
  ),
  "callHierarchy/outgoingCalls": orNull(
    listOf((v) => object(v) && hierarchyItem(v.to) && listOf(types.Range.is)(v.fromRanges)),
  ),
  "textDocument/semanticTokens/full": orNull(tokens),
  "textDocument/semanticTokens/range": orNull(tokens),
  "textDocument/semanticTokens/full/delta": orNull((v) => tokens(v) || (object(v) && Array.isArray(v.edits))),
  "textDocument/inlayHint": orNull(listOf(types.InlayHint.is)),
  "inlayHint/resolve": types.InlayHint.is,
  "textDocument/diagnostic": report,
  "workspace/diagnostic": (v) =>
    object(v) && listOf((r) => report(r) && typeof (r as { uri?: unknown }).uri === "string")(v.items),
  "textDocument/publishDiagnostics": (v) =>
    object(v) && typeof v.uri === "string" && listOf(types.Diagnostic.is)(v.diagnostics),
};

function completionItem(v: unknown): boolean {
  if (!object(v) || typeof v.label !== "string") return false;
  return v.textEdit === undefined || types.TextEdit.is(v.textEdit);
}

/** Fails where an answer does not have the shape of its method, or the method has no shape here. */
export function hasShape(method: string, value: unknown): void {
  const is = results[method];
  expect(is, `a shape for ${method}`).toBeDefined();
  expect(is!(value), `${method} answered ${JSON.stringify(value)?.slice(0, 400)}`).toBe(true);
}

export const shapedMethods: ReadonlySet<string> = new Set(Object.keys(results));
