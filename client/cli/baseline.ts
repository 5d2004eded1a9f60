/**
 * Findings that a library already had. They are counted and not reported, so that new ones are seen; the list may only shrink.
 *
 * What rests on a known error is a finding of its own here (`known-errors.ts`), so that another slip behind it is seen.
 *
 * Invariants: a finding graver than its entry, one with other figures (the author's words may stay the same while a strength that
 * they rest on is changed tenfold), or one more than the entry counts, is reported (and all that look like it, since nobody can
 * tell which is the new one). An entry whose file was not part of the run is neither used up nor called gone.
 */
import { type Severity, severities } from "../../shared/finding.ts";
import type { BaselineEntry, ReportFinding } from "../../shared/report.ts";
import { CannotRun } from "./cannot-run.ts";
import { figuresOf } from "./figures.ts";
import { likeness } from "./fingerprint.ts";
import { byCodeUnit } from "./folders.ts";

export const baselineSchema = "misce-baseline/3";

/** A finding with where its library and file lie, seen from the baseline's folder. */
export interface Located {
  finding: ReportFinding;
  root: string;
  file: string;
  /** The finding's, with an inventory as seen from there too. */
  subject: string;
}

export interface Comparison {
  /** Not in the baseline, in the order given. */
  reported: ReportFinding[];
  known: number;
  /** Subjects of known errors, sorted; a finding about no declaration is named by its file. */
  errorsIn: string[];
  gone: BaselineEntry[];
  /** The baseline without what is gone: what `--write-baseline` would write. */
  remaining: BaselineEntry[];
  /** What is found and not in the baseline, as entries. */
  added: BaselineEntry[];
}

/** `wasChecked(file)`: whether an entry's file was part of this run, or is no longer there. */
export function compareWithBaseline(
  found: readonly Located[],
  entries: readonly BaselineEntry[],
  wasChecked: (file: string) => boolean,
): Comparison {
  const groups = new Map<string, Located[]>();
  for (const located of found) {
    if (located.finding.silenced) continue;
    const { name, anchor } = located.finding;
    const key = likeness({ name, anchor, subject: located.subject }, located.root, located.file);
    const group = groups.get(key);
    if (group) group.push(located);
    else groups.set(key, [located]);
  }
  const knownFindings = new Set<ReportFinding>();
  const result: Comparison = { reported: [], known: 0, errorsIn: [], gone: [], remaining: [], added: [] };
  for (const entry of entries) {
    const key = likeness(entry, entry.root, entry.file);
    const group = groups.get(key) ?? [];
    groups.delete(key);
    weigh(entry, group, wasChecked(entry.file), result, knownFindings);
  }
  for (const group of groups.values()) result.added.push(entryOf(group));
  result.reported = found.map((l) => l.finding).filter((finding) => !knownFindings.has(finding));
  result.known = knownFindings.size;
  const errors = [...knownFindings].filter(({ severity }) => severity === "error");
  result.errorsIn = [...new Set(errors.map(({ subject, place }) => subject || place.file))].sort(byCodeUnit);
  return result;
}

function weigh(
  entry: BaselineEntry,
  group: readonly Located[],
  wasChecked: boolean,
  result: Comparison,
  known: Set<ReportFinding>,
): void {
  if (group.length === 0) {
    if (wasChecked) result.gone.push(entry);
    else result.remaining.push(entry);
    return;
  }
  const now = entryOf(group);
  if (group.length > entry.count || isGraver(now.severity, entry.severity) || !areAmong(now.figures, entry.figures)) {
    result.added.push(now);
    result.remaining.push(entry);
    return;
  }
  for (const { finding } of group) known.add(finding);
  result.remaining.push(now);
  if (group.length < entry.count) result.gone.push(without(entry, now));
}

/** What of an entry no longer occurs. */
function without(entry: BaselineEntry, { figures, count }: BaselineEntry): BaselineEntry {
  const left = [...entry.figures];
  for (const found of figures) left.splice(left.indexOf(found), 1);
  return { ...entry, count: entry.count - count, figures: left };
}

function entryOf(group: readonly Located[]): BaselineEntry {
  const { finding, root, file, subject } = group[0]!;
  const severity = group.reduce<Severity>((s, l) => (isGraver(l.finding.severity, s) ? l.finding.severity : s), "note");
  return {
    name: finding.name,
    severity,
    root,
    file,
    subject,
    anchor: finding.anchor,
    count: group.length,
    figures: group.map((l) => figuresOf(l.finding.message)).sort(byCodeUnit),
  };
}

/** Each of `some` as often as it stands among `all`. */
function areAmong(some: readonly string[], all: readonly string[]): boolean {
  const left = [...all];
  return some.every((figures) => {
    const at = left.indexOf(figures);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  });
}

function isGraver(a: Severity, b: Severity): boolean {
  return severities.indexOf(a) < severities.indexOf(b);
}

/** One entry a line, sorted, so that a change shows as one line in a diff and two branches merge. */
export function printBaseline(entries: readonly BaselineEntry[]): string {
  const order = (e: BaselineEntry) => JSON.stringify([e.root, e.file, e.subject, e.name, e.anchor]);
  const lines = [...entries]
    .sort((a, b) => byCodeUnit(order(a), order(b)))
    .map((entry) => `    ${JSON.stringify(entry)}`);
  const list = lines.length === 0 ? "[]" : `[\n${lines.join(",\n")}\n  ]`;
  return `{\n  "schema": "${baselineSchema}",\n  "findings": ${list}\n}\n`;
}

/** @throws CannotRun where the text is not a baseline: a damaged one must not hide or show anything. */
export function readBaseline(text: string, file: string): BaselineEntry[] {
  let data: unknown;
  try {
    data = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    throw new CannotRun(`The baseline "${file}" cannot be read as JSON. Restore it from version control.`);
  }
  const { schema, findings } = (data ?? {}) as { schema?: unknown; findings?: unknown };
  if (schema === "misce-baseline/1") {
    throw new CannotRun(
      `The baseline "${file}" holds no figures yet. Remove it, and write it again with --write-baseline.`,
    );
  }
  if (schema === "misce-baseline/2") {
    throw new CannotRun(
      `The baseline "${file}" does not list what rests on the errors in it, which is judged now. Remove it, and write it again with --write-baseline.`,
    );
  }
  if (schema !== baselineSchema || !Array.isArray(findings)) {
    throw new CannotRun(`"${file}" is not a baseline of this program (it should say "schema": "${baselineSchema}").`);
  }
  const seen = new Set<string>();
  return findings.map((entry: unknown, i) => {
    if (!isEntry(entry))
      throw new CannotRun(`Entry ${i + 1} of the baseline "${file}" is not complete. Restore it from version control.`);
    const key = likeness(entry, entry.root, entry.file);
    if (seen.has(key))
      throw new CannotRun(`Entry ${i + 1} of the baseline "${file}" repeats an earlier one. Remove one of the two.`);
    seen.add(key);
    return entry;
  });
}

function isEntry(entry: unknown): entry is BaselineEntry {
  if (typeof entry !== "object" || entry === null) return false;
  const e = entry as Record<string, unknown>;
  const texts = ["name", "root", "file", "subject", "anchor"];
  return (
    texts.every((key) => typeof e[key] === "string") &&
    severities.includes(e.severity as Severity) &&
    Number.isSafeInteger(e.count) &&
    (e.count as number) > 0 &&
    Array.isArray(e.figures) &&
    e.figures.length === e.count &&
    e.figures.every((figures) => typeof figures === "string")
  );
}
