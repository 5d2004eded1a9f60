/** The findings of a file as the editor is told them, whether they are sent or asked for. */
import { type Diagnostic, DiagnosticSeverity } from "vscode-languageserver-protocol";
import type { Finding } from "../shared/finding.ts";
import { type DiagnosticSettings, diagnosticOf, fileDiagnostic } from "./diagnostic.ts";
import type { Serving } from "./serving.ts";
import type { Aside } from "./session.ts";

/** @param key file of any known library; a file that is not known has no findings */
export function diagnosticsOf(serving: Serving, key: string): Diagnostic[] {
  const { session, settings, client } = serving;
  const unread = session.unreadable(key);
  if (unread) return [fileDiagnostic(unread.name, unread.reason)];
  const aside = session.whyAside(key);
  if (aside) return [fileDiagnostic("not-checked", asideText(aside), DiagnosticSeverity.Warning)];
  const document = session.document(key);
  const group = session.group(key);
  if (!document || !group) return [];
  const how: DiagnosticSettings = {
    findingsPage: settings.findingsPage,
    relatedInformation: client.relatedInformation,
    tags: client.diagnosticTags,
    codeDescriptions: client.codeDescriptions,
  };
  try {
    return inOrder(group.library.findings(session.nameOf(key)), serving.approvals.findings(key)).map((finding) =>
      diagnosticOf(finding, document, session.locate, how),
    );
  } catch (error) {
    // Silence would look like a clean file.
    serving.connection.console.error(`misce: ${key} could not be checked: ${faultOf(error)}`);
    return [
      fileDiagnostic(
        "not-checked",
        "A fault of this program kept this file from being checked. Do not take it as clean.",
      ),
    ];
  }
}

function asideText(aside: Aside): string {
  switch (aside.why) {
    case "left-out":
      return `This file was not checked: a check of the library does not look into \`${aside.folder}\`. If the file belongs to the library, move it out of that folder.`;
    case "by-link":
      return "This file was not checked under this name: a link leads to it, and the library has it under another name. Open it by that name.";
    case "unsaved":
      return "This text was not checked: several libraries are open here, and it is not saved in any of them. Save it where it belongs.";
  }
}

/** What is told from beside the text, in its place among the rest. */
function inOrder(found: Finding[], beside: readonly Finding[]): Finding[] {
  return beside.length === 0 ? found : [...found, ...beside].sort((a, b) => a.span.start - b.span.start);
}

export function faultOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
