/**
 * `misce check` as a task: one that is offered for each workspace folder, and those that an author defines in tasks.json. The
 * command line is part of the extension; it runs with the editor's own Node and reads and writes nothing but the terminal.
 */
import * as vscode from "vscode";
import { type CheckTask, checkArguments } from "./check-arguments.ts";
import { asOfSetting } from "./client-options.ts";

export function registerCheckTask(context: vscode.ExtensionContext): void {
  const command = vscode.Uri.joinPath(context.extensionUri, "dist", "misce.js").fsPath;
  const provider: vscode.TaskProvider = {
    provideTasks: () => folders().map((folder) => taskFor({ type: "misce", paths: ["."] }, folder, command)),
    resolveTask: (task) => taskFor(task.definition as CheckTask, task.scope ?? vscode.TaskScope.Workspace, command),
  };
  context.subscriptions.push(
    vscode.tasks.registerTaskProvider("misce", provider),
    vscode.commands.registerCommand("misce.checkLibrary", () => checkLibrary(command)),
  );
}

function folders(): readonly vscode.WorkspaceFolder[] {
  const all = vscode.workspace.isTrusted ? (vscode.workspace.workspaceFolders ?? []) : [];
  return all.filter((folder) => folder.uri.scheme === "file");
}

async function checkLibrary(command: string): Promise<void> {
  const [folder] = folders();
  if (!folder) {
    const why = vscode.workspace.isTrusted
      ? "Open the folder of the library first: `misce check` reads files from the disk."
      : "The task runs in a folder that you trust. Findings in the editor are shown all the same.";
    await vscode.window.showInformationMessage(why);
    return;
  }
  await vscode.tasks.executeTask(taskFor({ type: "misce", paths: ["."] }, folder, command));
}

function taskFor(
  definition: CheckTask,
  scope: vscode.WorkspaceFolder | vscode.TaskScope.Global | vscode.TaskScope.Workspace,
  command: string,
): vscode.Task {
  const run = new vscode.ProcessExecution(process.execPath, [command, ...checkArguments(definition, asOfSetting())], {
    // Where the editor's own program is Electron, this makes it behave as Node; elsewhere it changes nothing.
    env: { ELECTRON_RUN_AS_NODE: "1" },
    ...(typeof scope === "object" ? { cwd: scope.uri.fsPath } : {}),
  });
  const named = definition.paths.join(" ");
  const name = named === "." ? "check the library" : `check ${named}`;
  const task = new vscode.Task(definition, scope, name, "misce", run, "$misce");
  task.group = vscode.TaskGroup.Test;
  task.presentationOptions = { reveal: vscode.TaskRevealKind.Always, clear: true };
  return task;
}
