/** A finding as an editor shows it. */
import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from "vscode-languageserver-protocol";
import type { Finding, Severity, Span } from "../shared/finding.ts";
import type { Document } from "./document.ts";

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  note: DiagnosticSeverity.Information,
};

/** Findings about something that stands there without effect. */
const withoutEffect = new Set(["material-never-used"]);

export interface DiagnosticSettings {
  /** Page of findings; a finding's name is put behind it as a fragment. Undefined: no link, as the tool itself never goes to the network. */
  findingsPage: string | undefined;
  relatedInformation: boolean;
  tags: boolean;
  codeDescriptions: boolean;
}

export function diagnosticOf(
  finding: Finding,
  document: Document,
  locate: (span: Span) => { uri: string; range: Diagnostic["range"] } | undefined,
  settings: DiagnosticSettings,
): Diagnostic {
  const diagnostic: Diagnostic = {
    range: document.range(finding.span),
    severity: finding.silenced ? DiagnosticSeverity.Hint : severities[finding.severity],
    code: finding.name,
    source: "misce",
    message: finding.silenced ? silencedText(finding) : finding.message,
  };
  if (settings.findingsPage && settings.codeDescriptions)
    diagnostic.codeDescription = { href: `${settings.findingsPage}#${finding.name}` };
  if (settings.tags && withoutEffect.has(finding.name)) diagnostic.tags = [DiagnosticTag.Unnecessary];
  if (settings.relatedInformation) {
    const related = finding.related.flatMap(({ span, message }) => {
      const location = locate(span);
      return location ? [{ location, message }] : [];
    });
    if (related.length > 0) diagnostic.relatedInformation = related;
  }
  return diagnostic;
}

function silencedText(finding: Finding): string {
  const { because, by, until } = finding.silenced!;
  return `${finding.message} Silenced until ${until} by ${by}: ${because}`;
}

/** About a file as a whole, which has no text to point into. */
export function fileDiagnostic(
  name: string,
  message: string,
  severity: DiagnosticSeverity = DiagnosticSeverity.Error,
): Diagnostic {
  const start = { line: 0, character: 0 };
  return {
    range: { start, end: start },
    severity,
    code: name,
    source: "misce",
    message,
  };
}
