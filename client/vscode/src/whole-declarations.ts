/**
 * Whole declarations to start from, offered where one can begin: at the left margin, outside every block. (Snippets that a manifest
 * contributes are offered everywhere, and would push themselves between the steps that the server proposes.)
 */
import * as vscode from "vscode";
import { beginsDeclaration, filledIn, type Snippet } from "./snippet-text.ts";

export async function wholeDeclarations(extension: vscode.Uri): Promise<Snippet[]> {
  const file = vscode.Uri.joinPath(extension, "snippets", "misce.json");
  const bytes = await vscode.workspace.fs.readFile(file);
  return Object.values(JSON.parse(new TextDecoder().decode(bytes)) as Record<string, Snippet>);
}

export async function offerWholeDeclarations(extension: vscode.Uri): Promise<vscode.Disposable> {
  const snippets = await wholeDeclarations(extension);
  return vscode.languages.registerCompletionItemProvider(
    { language: "misce" },
    {
      provideCompletionItems(document, position) {
        if (!beginsDeclaration(document.lineAt(position).text, position.character)) return [];
        const typed = new vscode.Range(position.line, 0, position.line, position.character);
        return snippets.map((snippet, i) => itemOf(snippet, i, typed));
      },
    },
  );
}

function itemOf(snippet: Snippet, index: number, typed: vscode.Range): vscode.CompletionItem {
  const item = new vscode.CompletionItem(snippet.prefix, vscode.CompletionItemKind.Snippet);
  const body = snippet.body.join("\n");
  item.insertText = new vscode.SnippetString(body);
  item.range = typed;
  item.detail = snippet.description;
  item.documentation = new vscode.MarkdownString().appendCodeblock(filledIn(body), "misce");
  // Behind the server's own words.
  item.sortText = `~${String(index).padStart(3, "0")}`;
  return item;
}
