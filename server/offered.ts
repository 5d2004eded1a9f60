/** The server's half of the handshake: what it can do, from the table of methods and what the editor can take. */
import { type InitializeResult, TextDocumentSyncKind } from "vscode-languageserver-protocol";
import { actionKinds } from "./features/code-actions.ts";
import { legend } from "./features/semantic-tokens.ts";
import type { Serving } from "./serving.ts";

/** Recipe files, and the folders that may hold them. */
const files = {
  filters: [
    { scheme: "file", pattern: { glob: "**/*.misce" } },
    { scheme: "file", pattern: { glob: "**", matches: "folder" as const } },
  ],
};

export function offered(serving: Serving): InitializeResult {
  const { client } = serving;
  return {
    serverInfo: { name: "misce", version: "0.1.0" },
    capabilities: {
      positionEncoding: client.unit,
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: { includeText: false } },
      // Findings are sent where the editor takes them; offered for asking too, it would show each of them twice.
      ...(client.findings === "pull"
        ? {
            diagnosticProvider: {
              identifier: "misce",
              interFileDependencies: true,
              workspaceDiagnostics: true,
              workDoneProgress: true,
            },
          }
        : {}),
      completionProvider: { triggerCharacters: [" ", "=", ","], resolveProvider: true },
      hoverProvider: true,
      signatureHelpProvider: { triggerCharacters: [" "], retriggerCharacters: [" "] },
      definitionProvider: true,
      declarationProvider: true,
      typeDefinitionProvider: true,
      referencesProvider: true,
      documentHighlightProvider: true,
      documentSymbolProvider: { label: "misce" },
      workspaceSymbolProvider: true,
      codeActionProvider: client.actionLiterals ? { codeActionKinds: actionKinds, resolveProvider: true } : true,
      codeLensProvider: { resolveProvider: true },
      documentLinkProvider: {},
      documentFormattingProvider: true,
      documentRangeFormattingProvider: client.formatsRanges ? { rangesSupport: true } : true,
      documentOnTypeFormattingProvider: { firstTriggerCharacter: "\n", moreTriggerCharacter: ["}"] },
      renameProvider: client.preparesRename ? { prepareProvider: true } : true,
      foldingRangeProvider: true,
      selectionRangeProvider: true,
      callHierarchyProvider: true,
      semanticTokensProvider: { legend, full: { delta: true }, range: true },
      inlayHintProvider: { resolveProvider: true },
      workspace: {
        workspaceFolders: { supported: true, changeNotifications: true },
        fileOperations: { didCreate: files, didRename: files, didDelete: files },
      },
    },
  };
}
