/** What desktop and web tell the language client alike: which documents, which settings, where to write. */
import type { LogOutputChannel } from "vscode";
import * as vscode from "vscode";
import { type LanguageClientOptions, RevealOutputChannelOn } from "vscode-languageclient";

/** Every scheme of texts to work on: recipes in a virtual workspace or an unsaved one are checked as well; comparisons (`git:`) are not. */
const checkedSchemes = ["file", "untitled", "vscode-vfs", "vscode-test-web", "vscode-remote"];

export function isChecked(document: vscode.TextDocument): boolean {
  return checkedSchemes.includes(document.uri.scheme);
}

export function clientOptions(outputChannel: LogOutputChannel, commands: readonly string[]): LanguageClientOptions {
  return {
    documentSelector: checkedSchemes.map((scheme) => ({ scheme, language: "misce" })),
    outputChannel,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    diagnosticCollectionName: "misce",
    // `commands`: what this client carries out behind lenses and actions (see session.ts and shared/editor-requests.ts). `history`: git
    // is asked what was approved only in a folder that the user trusts, which is known anew at each start.
    initializationOptions: () => ({
      ...vscode.workspace.getConfiguration("misce"),
      commands,
      history: vscode.workspace.isTrusted,
    }),
    synchronize: { configurationSection: "misce" },
    markdown: { isTrusted: false, supportHtml: false },
  };
}

/** The chosen day, or empty for today. */
export function asOfSetting(): string {
  return vscode.workspace.getConfiguration("misce").get<string>("asOf", "").trim();
}
