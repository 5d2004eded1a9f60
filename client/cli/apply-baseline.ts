/** Reads the baseline of a run, takes the known findings out, and writes the shorter list where asked to. */
import { existsSync } from "node:fs";
import { dirname, relative, resolve } from "node:path";
import type { BaselineEntry, BaselineSummary, Report, ReportFinding } from "../../shared/report.ts";
import { compareWithBaseline, type Located, printBaseline, readBaseline } from "./baseline.ts";
import { CannotRun, reasonNotWritten } from "./cannot-run.ts";
import type { CheckSettings } from "./check-settings.ts";
import { readRecordText } from "./read-file.ts";
import type { SourceStore } from "./source-store.ts";
import { writeWhole } from "./write-whole.ts";

export interface Applied {
  reported: ReportFinding[];
  summary: BaselineSummary;
}

type Found = readonly { finding: ReportFinding; root: string }[];

/** A baseline as a run finds it. */
export interface OpenBaseline {
  name: string;
  path: string;
  /** Undefined where the file is to be written for the first time. */
  entries: BaselineEntry[] | undefined;
  /** The name of a file as seen from the baseline's folder, so that it fits whatever folder the command is run in. */
  seen(file: string): string;
}

/** @throws CannotRun where the baseline is missing (and not to be written), or damaged. */
export function openBaseline(name: string, mayBeNew: boolean, store: SourceStore): OpenBaseline {
  const path = resolve(store.cwd, name);
  const folder = dirname(path);
  const seen = (file: string) => (file === "" ? "" : slashes(relative(folder, store.pathOf(file)) || "."));
  return { name, path, entries: readEntries(path, name, mayBeNew), seen };
}

/** Findings with their library's root as the baseline calls it; those that a deviation silences never enter one. */
export function asEntries(found: Found, { seen }: OpenBaseline) {
  return found.flatMap(({ finding, root }) => (finding.silenced ? [] : [{ ...finding, root: seen(root) }]));
}

/** @throws CannotRun where the baseline would grow, or not all could be checked for it. */
export function applyBaseline(
  found: Found,
  { name, path, entries, seen }: OpenBaseline,
  settings: CheckSettings,
  { files, notChecked }: { files: readonly string[]; notChecked: Report["notChecked"] },
): Applied {
  const folder = dirname(path);
  const located = found.map<Located>(({ finding, root }) => ({
    finding,
    root: seen(root),
    file: seen(finding.place.file),
    subject: finding.subject.replace(/^inventory (.*)$/s, (_, file) => `inventory ${seen(file)}`),
  }));
  if (settings.writeBaseline && notChecked.length > 0) {
    throw new CannotRun(`The baseline was not written, as not all files could be checked: ${namesOf(notChecked)}.`);
  }
  const unread = new Set(notChecked.map((entry) => entry.file));
  const checked = new Set(files.filter((file) => !unread.has(file)).map(seen));
  const wasChecked = (file: string) => checked.has(file) || !existsSync(resolve(folder, file));
  if (entries === undefined) {
    const first = compareWithBaseline(located, [], wasChecked);
    writeEntries(path, name, first.added);
    return known(compareWithBaseline(located, first.added, wasChecked), name);
  }
  const comparison = compareWithBaseline(located, entries, wasChecked);
  if (settings.writeBaseline) {
    if (comparison.added.length > 0) throw new CannotRun(refusal(name, comparison.added));
    writeEntries(path, name, comparison.remaining);
    return known({ ...comparison, gone: [] }, name);
  }
  return known(comparison, name);
}

function known(comparison: ReturnType<typeof compareWithBaseline>, file: string): Applied {
  return {
    reported: comparison.reported,
    summary: { file, known: comparison.known, errorsIn: comparison.errorsIn, gone: comparison.gone },
  };
}

/** Undefined where the file is to be written for the first time. */
function readEntries(path: string, name: string, mayBeNew: boolean): BaselineEntry[] | undefined {
  const read = readRecordText(path);
  if ("text" in read) return readBaseline(read.text, name);
  if (mayBeNew && read.isMissing) return undefined;
  throw new CannotRun(
    `The baseline "${name}" cannot be read: ${read.reason}. A first one is made with --write-baseline, under the name of a file.`,
  );
}

function writeEntries(path: string, name: string, entries: readonly BaselineEntry[]): void {
  try {
    writeWhole(path, printBaseline(entries));
  } catch (error) {
    throw new CannotRun(`The baseline "${name}" cannot be written: ${reasonNotWritten(error)}.`);
  }
}

function refusal(name: string, added: readonly BaselineEntry[]): string {
  const list = added.map(
    (e) => `  ${e.severity} ${e.name} x ${e.count}, ${e.file}${e.subject ? `, ${e.subject}` : ""}: ${e.anchor}`,
  );
  return [
    `The baseline "${name}" may only shrink, and ${added.length === 1 ? "this finding is" : "these findings are"} not in it (or more often, graver, or with other figures than it says):`,
    ...list,
    "Put them right, or silence each with a deviation that gives a reason. The baseline was left as it was.",
  ].join("\n");
}

function namesOf(notChecked: Report["notChecked"]): string {
  return notChecked.map((entry) => entry.file).join(", ");
}

function slashes(path: string): string {
  return process.platform === "win32" ? path.replaceAll("\\", "/") : path;
}
