/** Opens an untitled recipe made from one of the whole-recipe snippets. */
import * as vscode from "vscode";
import { wholeDeclarations } from "./whole-declarations.ts";

export async function newRecipe(extension: vscode.Uri): Promise<void> {
  const choices = (await wholeDeclarations(extension))
    .filter((s) => s.prefix.startsWith("recipe: "))
    .map((s) => ({ label: s.prefix.slice("recipe: ".length), detail: s.description, body: s.body.join("\n") }));
  const chosen = await vscode.window.showQuickPick(choices, {
    title: "What kind of preparation?",
    placeHolder: "The recipe comes whole; Tab goes from one figure to the next.",
    matchOnDetail: true,
  });
  if (!chosen) return;
  const document = await vscode.workspace.openTextDocument({ language: "misce" });
  const editor = await vscode.window.showTextDocument(document);
  await editor.insertSnippet(new vscode.SnippetString(chosen.body));
}
