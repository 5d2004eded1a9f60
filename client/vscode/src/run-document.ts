/** The run of a recipe at one order, as a read-only document (`misce-run:`). It follows the recipe: after a change it is asked for again. */
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { editorCommands, type RunAtAnswer, type RunAtParams, runAtRequest } from "../../../shared/editor-requests.ts";

const scheme = "misce-run";
const settleMs = 150;

export function registerRunDocuments(client: BaseLanguageClient): vscode.Disposable {
  const changed = new vscode.EventEmitter<vscode.Uri>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const refresh = () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      for (const document of vscode.workspace.textDocuments)
        if (document.uri.scheme === scheme) changed.fire(document.uri);
    }, settleMs);
  };
  return vscode.Disposable.from(
    changed,
    { dispose: () => clearTimeout(timer) },
    vscode.workspace.registerTextDocumentContentProvider(scheme, {
      onDidChange: changed.event,
      provideTextDocumentContent: (uri) => runText(client, uri),
    }),
    // A change of stock or drug reaches the recipe too; so does another day.
    vscode.workspace.onDidChangeTextDocument(({ document }) => document.languageId === "misce" && refresh()),
    vscode.languages.onDidChangeDiagnostics(refresh),
    vscode.commands.registerCommand(editorCommands.openRun, openRun),
  );
}

async function openRun(uri: string, recipe: string, point: string): Promise<void> {
  const params: RunAtParams = { uri, recipe, point };
  const name = `${recipe} at ${point === "" ? "its order" : point}.txt`;
  const address = vscode.Uri.from({ scheme, path: `/${name}`, query: JSON.stringify(params) });
  const document = await vscode.workspace.openTextDocument(address);
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preview: true });
}

async function runText(client: BaseLanguageClient, uri: vscode.Uri): Promise<string> {
  try {
    const params = JSON.parse(uri.query) as RunAtParams;
    const answer = await client.sendRequest<RunAtAnswer>(runAtRequest, params);
    return "text" in answer ? answer.text : answer.refusal;
  } catch (error) {
    return `The checker did not answer: ${error instanceof Error ? error.message : error}`;
  }
}
