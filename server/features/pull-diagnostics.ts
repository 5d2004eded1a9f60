/** Findings on request: of one file, and of the whole workspace with closed files. A result id stands for the findings themselves. */
import {
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type FullDocumentDiagnosticReport,
  type ProgressToken,
  ProgressType,
  type UnchangedDocumentDiagnosticReport,
  type WorkDoneProgressBegin,
  type WorkDoneProgressEnd,
  type WorkDoneProgressReport,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver-protocol";
import { diagnosticsOf } from "../findings-of.ts";
import type { Answer, Serving } from "../serving.ts";

type Report = FullDocumentDiagnosticReport | UnchangedDocumentDiagnosticReport;

function report(serving: Serving, key: string, previous: string | undefined): Report {
  const items = diagnosticsOf(serving, key);
  const resultId = digest(JSON.stringify(items));
  if (resultId === previous) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
  return { kind: DocumentDiagnosticReportKind.Full, resultId, items };
}

/** Two independent 32-bit sums and the length: equal findings have equal ids, in this session and the next. */
function digest(text: string): string {
  let a = 0x811c9dc5;
  let b = 5381;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    a = Math.imul(a ^ c, 0x01000193);
    b = (Math.imul(b, 33) + c) | 0;
  }
  return `${(a >>> 0).toString(36)}-${(b >>> 0).toString(36)}-${text.length}`;
}

export const documentDiagnostics: Answer<DocumentDiagnosticParams, DocumentDiagnosticReport> = async (
  serving,
  params,
) => {
  const key = serving.host.keyOf(params.textDocument.uri);
  await serving.approvals.complete(key);
  const own = report(serving, key, params.previousResultId);
  const related: Record<string, Report> = {};
  if (serving.client.relatedDocuments) {
    // Other open files of the library: an edit here may have changed what is found there.
    const group = serving.session.group(key);
    for (const other of serving.session.openDocuments()) {
      if (other.key !== key && group !== undefined && serving.session.group(other.key) === group) {
        await serving.approvals.complete(other.key);
        related[other.uri] = report(serving, other.key, undefined);
      }
    }
  }
  return Object.keys(related).length > 0 ? { ...own, relatedDocuments: related } : own;
};

export const workspaceDiagnostics: Answer<WorkspaceDiagnosticParams, WorkspaceDiagnosticReport> = async (
  serving,
  params,
  token,
) => {
  const { session, host } = serving;
  const previous = new Map((params.previousResultIds ?? []).map((p) => [host.keyOf(p.uri), p.value]));
  const keys = [...new Set([...session.keys(), ...session.inventoryKeys(), ...previous.keys()])].filter(
    (key) => session.isAsked(key) || previous.has(key),
  );
  const items: WorkspaceDocumentDiagnosticReport[] = [];
  const partial = params.partialResultToken;
  const work = params.workDoneToken;
  if (work !== undefined) tell(serving, work, { kind: "begin", title: "Checking recipes", percentage: 0 });
  let from = performance.now();
  for (const [i, key] of keys.entries()) {
    if (token.isCancellationRequested) break;
    await serving.approvals.complete(key);
    const document = session.document(key);
    const uri = document?.uri ?? host.uriOf(key);
    items.push({ uri, version: document?.version ?? null, ...report(serving, key, previous.get(key)) });
    if (performance.now() - from < 8) continue;
    // Between files the server listens: a cancelled or newer request need not wait for a whole library.
    await new Promise<void>((resolve) => void host.after(0, resolve));
    from = performance.now();
    const percentage = Math.floor((100 * i) / keys.length);
    if (work !== undefined)
      tell(serving, work, { kind: "report", message: `${i} of ${keys.length} files`, percentage });
    if (partial !== undefined) await serving.connection.sendProgress(partialType, partial, { items: items.splice(0) });
  }
  if (work !== undefined) tell(serving, work, { kind: "end" });
  return { items };
};

const partialType = new ProgressType<WorkspaceDiagnosticReport>();
const workType = new ProgressType<WorkDoneProgressBegin | WorkDoneProgressReport | WorkDoneProgressEnd>();

function tell(
  serving: Serving,
  token: ProgressToken,
  value: WorkDoneProgressBegin | WorkDoneProgressReport | WorkDoneProgressEnd,
): void {
  void serving.connection.sendProgress(workType, token, value);
}
