/**
 * Quick fixes, fix-all and refactorings. All are made from the server's own present findings, by place and name. What the editor
 * sends back as `diagnostics` or `data` is not read: one common editor returns byte columns there, another drops `data`.
 */
import {
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  type CodeActionParams,
  type Diagnostic,
  type WorkspaceEdit,
} from "vscode-languageserver-protocol";
import { deviationDraft } from "../../language/answers/deviation-draft.ts";
import { refactoringsAt } from "../../language/answers/refactorings.ts";
import { editorCommands } from "../../shared/editor-requests.ts";
import type { Finding, Fix } from "../../shared/finding.ts";
import { diagnosticOf } from "../diagnostic.ts";
import type { Answer, Serving } from "../serving.ts";
import { type InFile, inFile } from "./at.ts";
import { type PlacedEdit, workspaceEdit } from "./edits.ts";

export const fixAllKind = `${CodeActionKind.SourceFixAll}.misce`;
export const actionKinds = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorRewrite,
  CodeActionKind.RefactorExtract,
  fixAllKind,
];

export const codeActions: Answer<CodeActionParams, CodeAction[] | null> = (serving, params) => {
  const at = inFile(serving, params.textDocument);
  if (!at) return null;
  const start = at.document.offset(params.range.start);
  const end = at.document.offset(params.range.end);
  const context = params.context ?? { diagnostics: [] }; // some editors leave it out
  const wants = (kind: string) => context.only?.some((o) => kind === o || kind.startsWith(`${o}.`)) ?? true;
  const actions: CodeAction[] = [];
  lastOffered.set(serving, new Map());
  const findings = at.library.findings(at.key).filter((f) => !f.silenced);
  const here = findings.filter((f) => f.span.start <= end && start <= f.span.end);
  if (start === 0 && end >= at.document.text.length && isOfNamed(context))
    return namedFixes(serving, at, context.diagnostics, here);
  if (wants(CodeActionKind.QuickFix)) actions.push(...quickFixes(serving, at, here));
  if (wants(CodeActionKind.RefactorRewrite) || wants(CodeActionKind.RefactorExtract)) {
    actions.push(...refactorings(serving, at, start, end).filter((a) => wants(a.kind!)));
  }
  if (wants(fixAllKind)) actions.push(...fixAll(serving, findings));
  return actions;
};

/**
 * One editor asks over the whole text for the fixes of a finding that it names, and makes every change that it is sent: deviations and
 * refactorings that nobody has chosen among them. It is sent what may be made unasked: the one fix, or the preferred one.
 */
function namedFixes(serving: Serving, at: InFile, named: readonly Diagnostic[], findings: readonly Finding[]) {
  const isNamed = ({ name, span }: Finding) =>
    named.some((d) => d.code === name && d.range?.start?.line === at.document.position(span.start).line);
  return findings.filter(isNamed).flatMap((finding) => {
    const preferred = finding.fixes.filter((fix) => fix.preferred);
    const sure = finding.fixes.length === 1 ? finding.fixes : preferred;
    return sure.length === 1 ? fixesOf(serving, at, { ...finding, fixes: sure }) : [];
  });
}

function isOfNamed({ only, diagnostics, triggerKind }: CodeActionContext): boolean {
  return !only && triggerKind === undefined && diagnostics?.length > 0;
}

function quickFixes(serving: Serving, at: InFile, findings: readonly Finding[]): CodeAction[] {
  const told = (finding: Finding) => toldOf(serving, at, finding);
  const drafts = findings.flatMap((finding): CodeAction[] => {
    const draft = deviationDraft(at.library, finding);
    if (!draft) return [];
    const span = { file: at.key, start: draft.at, end: draft.at };
    const edit = workspaceEdit(serving, [{ span, text: draft.text }]);
    return [{ title: draft.title, kind: CodeActionKind.QuickFix, diagnostics: told(finding), edit }];
  });
  const fixes = findings.flatMap((finding) => fixesOf(serving, at, finding));
  return [...fixes, ...drafts, ...runsAt(serving, at, findings, told)];
}

function toldOf(serving: Serving, at: InFile, finding: Finding): Diagnostic[] {
  const { diagnosticTags: tags, codeDescriptions } = serving.client;
  const how = { findingsPage: serving.settings.findingsPage, relatedInformation: false, tags, codeDescriptions };
  return [diagnosticOf(finding, at.document, serving.session.locate, how)];
}

function fixesOf(serving: Serving, at: InFile, finding: Finding): CodeAction[] {
  return finding.fixes.map(
    (fix): CodeAction => ({
      title: fix.title,
      kind: CodeActionKind.QuickFix,
      diagnostics: toldOf(serving, at, finding),
      ...(fix.preferred ? { isPreferred: true } : {}),
      ...edited(
        serving,
        at.key,
        { what: "fix", finding: finding.name, start: finding.span.start, title: fix.title },
        fix,
      ),
    }),
  );
}

/** For findings of a range: the run at the order that shows them, once for each recipe and order. */
function runsAt(
  serving: Serving,
  at: InFile,
  findings: readonly Finding[],
  told: (finding: Finding) => Diagnostic[],
): CodeAction[] {
  const command = editorCommands.openRun;
  if (!serving.client.commands.has(command)) return [];
  const orders = new Map<string, CodeAction>();
  for (const finding of findings) {
    const recipe = /^recipe (.+)$/.exec(finding.subject)?.[1];
    const point = finding.overRange?.shownAt;
    if (recipe === undefined || point === undefined) continue;
    const known = orders.get(`${recipe} ${point}`);
    if (known) known.diagnostics!.push(...told(finding));
    else {
      const title = `Open the run at ${point}`;
      const values = [at.document.uri, recipe, point];
      orders.set(`${recipe} ${point}`, {
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: told(finding),
        command: { title, command, arguments: values },
      });
    }
  }
  return [...orders.values()];
}

interface Kept {
  what: "fix";
  finding: string;
  start: number;
  title: string;
}

type Offered = Kept & { uri: string };

/** By title, for an editor that says it keeps `data` and then drops it; undefined where a title stood twice. */
const lastOffered = new WeakMap<Serving, Map<string, Offered | undefined>>();

/** The edit itself, or a note to find it again where the editor asks for edits later. */
function edited(serving: Serving, key: string, kept: Kept, fix: Fix): Pick<CodeAction, "edit" | "data"> {
  if (serving.client.resolvesActionEdits) {
    const document = serving.session.document(key)!;
    const offered = lastOffered.get(serving);
    offered?.set(kept.title, offered.has(kept.title) ? undefined : { ...kept, uri: document.uri });
    return { data: { ...kept, uri: document.uri, version: document.version } };
  }
  return { edit: workspaceEdit(serving, fix.edits) };
}

/** Looks the fix up again among the present findings; where the text has changed so that it is gone, there is no edit. */
export const codeActionResolve: Answer<CodeAction, CodeAction> = (serving, action) => {
  const kept = (action.data ?? lastOffered.get(serving)?.get(action.title)) as
    | (Partial<Kept> & { uri?: unknown })
    | null
    | undefined;
  if (action.edit || kept?.what !== "fix" || typeof kept.uri !== "string") return action;
  const at = inFile(serving, { uri: kept.uri });
  const findings = at?.library.findings(at.key).filter((f) => f.name === kept.finding && !f.silenced) ?? [];
  const nearest = [...findings].sort(
    (a, b) => Math.abs(a.span.start - (kept.start ?? 0)) - Math.abs(b.span.start - (kept.start ?? 0)),
  )[0];
  const fix = nearest?.fixes.find((f) => f.title === kept.title);
  const { data: _, ...rest } = action;
  return fix ? { ...rest, edit: workspaceEdit(serving, fix.edits) } : rest;
};

function refactorings(serving: Serving, at: InFile, start: number, end: number): CodeAction[] {
  return refactoringsAt(at.library, at.key, start, end).flatMap((r): CodeAction[] => {
    const edit = workspaceEdit(
      serving,
      r.edits.map(({ start: from, end: to, text }) => ({ span: { file: at.key, start: from, end: to }, text })),
    );
    if (!r.newFile) return [{ title: r.title, kind: r.kind, edit }];
    const whole = withNewFile(serving, at, edit, r.newFile);
    return whole ? [{ title: r.title, kind: r.kind, edit: whole }] : [];
  });
}

function withNewFile(
  serving: Serving,
  at: InFile,
  edit: WorkspaceEdit,
  { path, text }: { path: string; text: string },
): WorkspaceEdit | undefined {
  const folder = at.group.root ?? serving.host.folderOf(at.key);
  if (folder === undefined || !edit.documentChanges || !serving.client.createsFiles) return undefined;
  const key = serving.host.resolve(folder, path);
  if (serving.session.knows(key)) return undefined;
  const uri = serving.host.uriOf(key);
  const start = { line: 0, character: 0 };
  return {
    documentChanges: [
      { kind: "create", uri, options: { overwrite: false, ignoreIfExists: false } },
      { textDocument: { uri, version: null }, edits: [{ range: { start, end: start }, newText: text }] },
      ...edit.documentChanges,
    ],
  };
}

/**
 * Every obvious repair of how the file is written; of two that overlap, the first, and the next run takes the other. No step is put in:
 * editors run this on saving, and a check of the label that nobody decided on would then stand there as done.
 */
export function harmlessEdits(findings: readonly Finding[]): PlacedEdit[] {
  const taken: PlacedEdit[] = [];
  for (const finding of findings) {
    if (finding.family === "technique") continue;
    const fix = finding.fixes.find((f) => f.preferred);
    if (!fix) continue;
    const free = fix.edits.every((e) => taken.every((t) => t.span.file !== e.span.file || apart(t, e)));
    if (free) taken.push(...fix.edits);
  }
  return taken;
}

function apart(a: PlacedEdit, b: PlacedEdit): boolean {
  return a.span.end < b.span.start || b.span.end < a.span.start;
}

function fixAll(serving: Serving, findings: readonly Finding[]): CodeAction[] {
  const edits = harmlessEdits(findings);
  if (edits.length === 0) return [];
  return [{ title: "Mend all notation that has one safe form", kind: fixAllKind, edit: workspaceEdit(serving, edits) }];
}
