/**
 * What the lenses over a recipe do with the command line that the extension carries: print the sheet, compare with the last commit,
 * approve. Desktop only; they work on saved files, so the file is saved first, and only in a folder that the user trusts.
 */
import { execFile } from "node:child_process";
import { basename, dirname } from "node:path";
import * as vscode from "vscode";
import { type AskedInput, editorCommands } from "../../../shared/editor-requests.ts";
import { asOfSetting } from "./client-options.ts";

export const desktopCommands: readonly string[] = [
  editorCommands.printSheet,
  editorCommands.compareWithCommit,
  editorCommands.approve,
];

const scheme = "misce-compare";

interface Outcome {
  status: number;
  out: string;
  told: string;
}

export function registerCommandLenses(context: vscode.ExtensionContext): void {
  const program = vscode.Uri.joinPath(context.extensionUri, "dist", "misce.js").fsPath;
  const compared = new Map<string, string>();
  const changed = new vscode.EventEmitter<vscode.Uri>();
  const commands: Record<string, (...values: never[]) => unknown> = {
    [editorCommands.printSheet]: (uri: string, recipe: string, inputs: AskedInput[]) =>
      printSheet(program, context, vscode.Uri.parse(uri), recipe, inputs),
    [editorCommands.compareWithCommit]: async (uri: string) => {
      const file = vscode.Uri.parse(uri);
      const outcome = await run(program, file, ["compare", ...asOf(), "--", "HEAD", basename(file.fsPath)]);
      if (!outcome) return;
      const address = vscode.Uri.from({ scheme, path: `${file.path} compared with the last commit.txt` });
      const why = `This file was not compared with the last commit.\n${outcome.told.replace(/^misce: /, "")}`;
      compared.set(address.toString(), outcome.out === "" ? why : outcome.out);
      changed.fire(address);
      const document = await vscode.workspace.openTextDocument(address);
      await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preview: true });
    },
    [editorCommands.approve]: (uri: string, recipe: string) => approve(program, vscode.Uri.parse(uri), recipe),
  };
  context.subscriptions.push(
    changed,
    vscode.workspace.registerTextDocumentContentProvider(scheme, {
      onDidChange: changed.event,
      provideTextDocumentContent: (uri) =>
        compared.get(uri.toString()) ?? "Compare again: the answer is no longer kept.",
    }),
    ...Object.entries(commands).map(([name, each]) => vscode.commands.registerCommand(name, each)),
  );
}

async function printSheet(
  program: string,
  context: vscode.ExtensionContext,
  file: vscode.Uri,
  recipe: string,
  inputs: readonly AskedInput[],
): Promise<void> {
  const flags: string[] = [];
  for (const { input, range } of inputs) {
    const title = `${input.replace("-", " ")} (${range})`;
    const typed = await vscode.window.showInputBox({ title: `Sheet of ${recipe}`, prompt: `${title}, with its unit` });
    if (typed === undefined) return;
    flags.push(`--${input}`, typed);
  }
  await vscode.workspace.fs.createDirectory(context.globalStorageUri);
  const page = vscode.Uri.joinPath(context.globalStorageUri, `${recipe}.html`);
  const words = ["sheet", ...flags, "--recipe", recipe, "--out", page.fsPath, "--", file.fsPath];
  const outcome = await run(program, file, words);
  if (!outcome) return;
  if (outcome.status > 1) {
    await vscode.window.showErrorMessage(outcome.told);
    return;
  }
  if (outcome.status === 1) void vscode.window.showWarningMessage(outcome.told);
  // A browser here cannot open what lies on the machine that the editor works on.
  const isElsewhere = vscode.env.remoteName !== undefined || vscode.env.uiKind === vscode.UIKind.Web;
  if (isElsewhere) await putBeside(file, page, recipe);
  else await vscode.env.openExternal(page);
}

async function putBeside(file: vscode.Uri, page: vscode.Uri, recipe: string): Promise<void> {
  const defaultUri = vscode.Uri.joinPath(file, "..", `${recipe}.html`);
  const filters = { "Web page": ["html"] };
  const place = await vscode.window.showSaveDialog({ title: `Sheet of ${recipe}`, defaultUri, filters });
  if (!place) return;
  await vscode.workspace.fs.copy(page, place, { overwrite: true });
  const told = `The sheet of ${recipe} stands in ${place.fsPath}. Open it in a browser and print it.`;
  await vscode.window.showInformationMessage(told);
}

async function approve(program: string, file: vscode.Uri, recipe: string): Promise<void> {
  const prompt = "The role in which you approve, one of the site's roles";
  const role = await vscode.window.showInputBox({ title: `Approve ${recipe}`, prompt, value: "pharmacist" });
  if (role === undefined || role.trim() === "") return;
  const words = ["approve", "--role", role.trim(), "--recipe", recipe, "--", file.fsPath];
  const outcome = await run(program, file, words);
  if (!outcome) return;
  if (outcome.status === 0) await vscode.window.showInformationMessage(outcome.out);
  else await vscode.window.showErrorMessage(outcome.told);
}

function asOf(): string[] {
  const day = asOfSetting();
  return day === "" ? [] : ["--as-of", day];
}

/** Undefined where it was not run; the user has been told why. */
async function run(program: string, file: vscode.Uri, words: readonly string[]): Promise<Outcome | undefined> {
  if (!vscode.workspace.isTrusted || file.scheme !== "file") {
    await vscode.window.showInformationMessage("This works on files on the disk, in a folder that you trust.");
    return undefined;
  }
  for (const document of vscode.workspace.textDocuments)
    if (document.languageId === "misce" && document.isDirty && !(await document.save())) return undefined;
  return new Promise((resolve) => {
    const options = { cwd: dirname(file.fsPath), env: { ...process.env, ELECTRON_RUN_AS_NODE: "1" } };
    execFile(process.execPath, [program, ...words], options, (error, out, told) => {
      const status = error ? (typeof error.code === "number" ? error.code : 3) : 0;
      resolve({ status, out, told: told === "" && error ? error.message : told });
    });
  });
}
