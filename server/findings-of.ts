/** The findings of a file as the editor is told them, whether they are sent or asked for. */
import { type Diagnostic, DiagnosticSeverity } from "vscode-languageserver-protocol";
import type { Finding } from "../shared/finding.ts";
import { type DiagnosticSettings, diagnosticOf, fileDiagnostic } from "./diagnostic.ts";
import type { Aside } from "./membership.ts";
import type { Serving } from "./serving.ts";

/** @param key file of any known library; a file that is not known has no findings */
export function diagnosticsOf(serving: Serving, key: string): Diagnostic[] {
  const { session, settings, client } = serving;
  const unread = session.unreadable(key);
  if (unread) return [fileDiagnostic(unread.name, unread.reason)];
  const aside = session.whyAside(key);
  if (aside) return [fileDiagnostic("not-checked", asideText(aside), DiagnosticSeverity.Warning)];
  const document = session.document(key);
  const groups = session.groupsOf(key);
  if (!document || groups.length === 0) return [];
  const how: DiagnosticSettings = {
    findingsPage: settings.findingsPage,
    relatedInformation: client.relatedInformation,
    tags: client.diagnosticTags,
    codeDescriptions: client.codeDescriptions,
  };
  try {
    const found = groups.flatMap(({ library }) => library.findings(session.nameOf(key)));
    const told = groups.length > 1 ? once(found) : found;
    return inOrder(told, serving.approvals.findings(key)).map((finding) =>
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

/** What an inventory says of itself each library that reads it says again. */
function once(found: readonly Finding[]): Finding[] {
  return [...new Map(found.map((f) => [JSON.stringify([f.span, f.name, f.message]), f])).values()];
}

/** What is told from beside the text, in its place among the rest. */
function inOrder(found: Finding[], beside: readonly Finding[]): Finding[] {
  return beside.length === 0 ? found : [...found, ...beside].sort((a, b) => a.span.start - b.span.start);
}

export function faultOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
