/** What desktop and web tell the language client alike: which documents, which settings, where to write. */
import type { LogOutputChannel } from "vscode";
import * as vscode from "vscode";
import { type LanguageClientOptions, RevealOutputChannelOn } from "vscode-languageclient";

export function clientOptions(outputChannel: LogOutputChannel): LanguageClientOptions {
  return {
    // Every scheme: recipes in a virtual workspace or an unsaved one are checked as well; comparisons (`git:`) are not.
    documentSelector: ["file", "untitled", "vscode-vfs", "vscode-test-web", "vscode-remote"].map((scheme) => ({
      scheme,
      language: "misce",
    })),
    outputChannel,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    diagnosticCollectionName: "misce",
    // `showsUses`: this client carries out the command of the code lenses (see session.ts).
    initializationOptions: { ...vscode.workspace.getConfiguration("misce"), showsUses: true },
    synchronize: { configurationSection: "misce" },
    markdown: { isTrusted: false, supportHtml: false },
  };
}

/** The chosen day, or empty for today. */
export function asOfSetting(): string {
  return vscode.workspace.getConfiguration("misce").get<string>("asOf", "").trim();
}
