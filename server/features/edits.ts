/** Edits by file as one workspace edit, each with the version it was made for, so that an editor never applies it to a later text. */
import type { TextDocumentEdit, TextEdit, WorkspaceEdit } from "vscode-languageserver-protocol";
import type { Span } from "../../shared/finding.ts";
import type { Serving } from "../serving.ts";

export interface PlacedEdit {
  span: Span;
  text: string;
}

export function workspaceEdit(serving: Serving, edits: readonly PlacedEdit[]): WorkspaceEdit {
  const byFile = new Map<string, TextEdit[]>();
  for (const { span, text } of edits) {
    const document = serving.session.document(span.file);
    if (!document) continue;
    const edit = { range: document.range(span), newText: document.lineEndsIn(text) };
    const same = byFile.get(span.file);
    if (same) same.push(edit);
    else byFile.set(span.file, [edit]);
  }
  const documents = [...byFile].map(([key, list]) => ({ document: serving.session.document(key)!, list }));
  if (!serving.client.documentChanges) {
    return { changes: Object.fromEntries(documents.map(({ document, list }) => [document.uri, list])) };
  }
  return {
    documentChanges: documents.map(
      ({ document, list }): TextDocumentEdit => ({
        textDocument: { uri: document.uri, version: document.version },
        edits: list,
      }),
    ),
  };
}
