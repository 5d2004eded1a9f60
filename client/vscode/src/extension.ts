/** Desktop and remote: the server runs in a Node process of its own, `misce check` runs as a task. */
import type { ExtensionContext } from "vscode";
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { registerCheckTask } from "./check-task.ts";
import { clientOptions } from "./client-options.ts";
import { desktopCommands, registerCommandLenses } from "./command-lenses.ts";
import { sessionCommands, startSession } from "./session.ts";

export async function activate(context: ExtensionContext): Promise<void> {
  const module = vscode.Uri.joinPath(context.extensionUri, "dist", "server.js").fsPath;
  registerCheckTask(context);
  registerCommandLenses(context);
  const output = vscode.window.createOutputChannel("Misce", { log: true });
  const run = { module, transport: TransportKind.ipc };
  const client = new LanguageClient(
    "misce",
    "Misce",
    { run, debug: run },
    clientOptions(output, [...sessionCommands, ...desktopCommands]),
  );
  await startSession(context, client, output);
}

/** The client is among the context's subscriptions and stops with them. */
export function deactivate(): void {}
