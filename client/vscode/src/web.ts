/** Web: the server runs in a worker and reads files through this client. No Node anywhere, and no task. */
import type { ExtensionContext } from "vscode";
import * as vscode from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { clientOptions } from "./client-options.ts";
import { answerFileRequests } from "./file-requests.ts";
import { sessionCommands, startSession } from "./session.ts";

interface ServerWorker {
  terminate(): void;
}

/** The part of a browser that is used; the types of a whole browser are not wanted beside those of Node. */
declare const Worker: new (url: string) => ServerWorker;

export async function activate(context: ExtensionContext): Promise<void> {
  const module = vscode.Uri.joinPath(context.extensionUri, "dist", "server-web.js");
  const output = vscode.window.createOutputChannel("Misce", { log: true });
  let worker: ServerWorker | undefined;
  const options = async () => {
    // A restart begins with a fresh worker; the one before holds old texts.
    worker?.terminate();
    worker = new Worker(module.toString(true));
    return worker as never;
  };
  const client = new LanguageClient("misce", "Misce", options, clientOptions(output, sessionCommands));
  context.subscriptions.push(
    answerFileRequests(client),
    vscode.commands.registerCommand("misce.checkLibrary", () =>
      vscode.window.showInformationMessage(
        "In a browser the whole library is checked as you write; the task `misce check` needs VS Code on a machine.",
      ),
    ),
  );
  await startSession(context, client, output);
}

export function deactivate(): void {}
