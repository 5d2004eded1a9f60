/** One running client and what stands around it: commands, status item, preview. The same on desktop and web. */
import type { ExtensionContext, LogOutputChannel } from "vscode";
import * as vscode from "vscode";
import type { BaseLanguageClient, Location, Position } from "vscode-languageclient";
import { editorCommands } from "../../../shared/editor-requests.ts";
import { chooseAsOf } from "./as-of.ts";
import { newRecipe } from "./new-recipe.ts";
import { PreviewPanel } from "./preview-panel.ts";
import { registerRunDocuments } from "./run-document.ts";
import { showStatus } from "./status.ts";
import { offerWholeDeclarations } from "./whole-declarations.ts";

/** What is carried out on desktop and web alike. */
export const sessionCommands: readonly string[] = [
  editorCommands.showUses,
  editorCommands.showFindings,
  editorCommands.openRun,
];

export async function startSession(
  context: ExtensionContext,
  client: BaseLanguageClient,
  output: LogOutputChannel,
): Promise<void> {
  const preview = new PreviewPanel(context.extensionUri, client);
  context.subscriptions.push(output, client, preview, showStatus(client), registerRunDocuments(client));
  // Not in the palette: the server puts it behind the lens over a stock or a drug.
  context.subscriptions.push(vscode.commands.registerCommand(editorCommands.showUses, showUses));
  const restart = async () => {
    await client.stop();
    await client.start();
  };
  const commands: Record<string, (...values: never[]) => unknown> = {
    "misce.showPreview": (uri?: vscode.Uri) => preview.show(uri),
    "misce.showText": () => preview.showText(),
    "misce.newRecipe": () => newRecipe(context.extensionUri),
    "misce.chooseAsOf": chooseAsOf,
    "misce.showFindings": () => vscode.commands.executeCommand("workbench.actions.view.problems"),
    "misce.restartServer": restart,
    "misce.showOutput": () => output.show(),
  };
  for (const [name, run] of Object.entries(commands)) {
    context.subscriptions.push(vscode.commands.registerCommand(name, run));
  }
  // What the server may ask of version control is said at its start.
  context.subscriptions.push(vscode.workspace.onDidGrantWorkspaceTrust(restart));
  context.subscriptions.push(await offerWholeDeclarations(context.extensionUri));
  await client.start();
  preview.openAtStart();
}

async function showUses(uri: string, { line, character }: Position, places: Location[]): Promise<void> {
  const shown = places.map(
    ({ uri: file, range: { start, end } }) =>
      new vscode.Location(
        vscode.Uri.parse(file),
        new vscode.Range(start.line, start.character, end.line, end.character),
      ),
  );
  const at = new vscode.Position(line, character);
  await vscode.commands.executeCommand("editor.action.showReferences", vscode.Uri.parse(uri), at, shown);
}
