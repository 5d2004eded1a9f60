/**
 * Only what a change reaches: the changed files, and every file that uses something declared in one of them, now or before.
 *
 * Invariant: leaving a file out may never hide a finding that the change brought. So the former texts count too (a stock that was
 * removed or moved is no longer among anybody's dependencies), a change of site, lots or inventory reaches the whole library, a
 * file of which git cannot say whether it changed counts as changed, and a library that reaches into another repository is taken whole; and
 * with a record of approvals goes its recipe.
 */
import { basename, dirname, join, sep } from "node:path";
import { recordEnding, recordsIn } from "./approval-files.ts";
import { CannotRun } from "./cannot-run.ts";
import { decode } from "./decode.ts";
import type { Engine, OpenLibrary } from "./engine-contract.ts";
import type { LibraryGroup } from "./library-groups.ts";
import { realPath } from "./real-path.ts";
import type { SourceStore } from "./source-store.ts";

export interface Changes {
  /** Absolute paths; some may no longer exist. */
  paths: readonly string[];
  /** Undefined where nobody knows the former texts. */
  formerBytes: ((path: string) => Buffer | undefined) | undefined;
  /** Absolute folders in which something may have been removed without being named. */
  otherRepositories?: readonly string[];
  /** Whether the file (absolute, without links) would stand among `paths` had it changed. Undefined where a person named them. */
  follows?(path: string): boolean;
}

interface ChangedFile {
  path: string;
  former: string | undefined;
  reachesEverything: boolean;
}

const widelyFelt = /^[ \t\uFEFF]*(site|lots)\b/m;

/** Keeps in each group's `asked` only what the changes reach. */
export async function keepChanged(
  groups: readonly LibraryGroup[],
  changes: Changes,
  engine: Engine,
  store: SourceStore,
  asOf: string,
): Promise<void> {
  const opened = new Map(
    groups.flatMap((group) => [...group.opened, ...group.asked]).map((path) => [realPath(path), path]),
  );
  const unfollowed = [...opened.keys()].filter((real) => changes.follows && !changes.follows(real));
  const files = [...new Set([...changes.paths, ...unfollowed])]
    .filter((path) => /\.(misce|csv)$/i.test(path) || opened.has(realPath(path)))
    .map((path) => changedFile(path, opened.get(realPath(path)) ?? realPath(path), changes, store));
  for (const path of changes.otherRepositories ?? []) files.push({ path, former: undefined, reachesEverything: true });
  const known = changes.formerBytes !== undefined;
  if (!known) requireWithin(groups, files, store);
  const records = changedRecords(groups, changes);
  for (const group of groups) {
    if (files.some((file) => file.reachesEverything && concerns(file.path, group))) continue;
    const own = files.filter((file) => !isInventory(file.path) && concernsRoot(file.path, group));
    const reached = new Set(own.map((file) => store.nameOf(file.path)));
    const names = new Set(reached);
    if (own.length > 0) addUsers(await group.library(), names, reached);
    if (own.length > 0 && known) addUsers(await formerLibrary(group, own, engine, store, asOf), names, reached);
    // A file that stands alone may have lost its library by the change.
    if (!known && (own.length > 0 || group.root === undefined)) addFilesWithLostNames(await group.library(), reached);
    for (const path of group.asked) if (hasChangedRecord(path, records, store)) reached.add(store.nameOf(path));
    group.asked = group.asked.filter((path) => reached.has(store.nameOf(path)));
  }
}

/** Real paths of records of approvals that changed, are gone, or that git does not look at. */
function changedRecords(groups: readonly LibraryGroup[], changes: Changes): string[] {
  const { follows } = changes;
  const folders = new Set(groups.flatMap((group) => group.asked.map((path) => realPath(dirname(path)))));
  const unfollowed = follows
    ? [...folders].flatMap((folder) =>
        [...recordsIn(folder)].map((name) => join(folder, name)).filter((path) => !follows(path)),
      )
    : [];
  return [...changes.paths.filter((path) => path.endsWith(recordEnding)).map(realPath), ...unfollowed];
}

/** The record of a recipe lies beside its file and bears its name. */
function hasChangedRecord(path: string, records: readonly string[], store: SourceStore): boolean {
  const near = records.filter((record) => dirname(record) === realPath(dirname(path)));
  if (near.length === 0) return false;
  const source = store.read(path);
  return near.some((record) => source.kind !== "text" || source.text.includes(basename(record, recordEnding)));
}

/** @throws CannotRun where somebody named a recipe file that no library of the run holds: it would pass for looked at. */
function requireWithin(groups: readonly LibraryGroup[], files: readonly ChangedFile[], store: SourceStore): void {
  for (const { path } of files) {
    if (isInventory(path) || groups.some((group) => concernsRoot(path, group) || group.asked.includes(path))) continue;
    throw new CannotRun(
      `--changed names "${store.nameOf(path)}", which belongs to no library that is checked here. Name its folder among the paths too.`,
    );
  }
}

/** `origin` is the path as the changes name it, `path` as the run does: a link may lie between them. */
function changedFile(origin: string, path: string, changes: Changes, store: SourceStore): ChangedFile {
  const now = store.read(path);
  const bytes = changes.formerBytes?.(origin);
  const decoded = bytes && decode(bytes, store.nameOf(path));
  const former = decoded && "text" in decoded ? decoded.text : undefined;
  const texts = [now.kind === "text" ? now.text : "", former ?? ""];
  return { path, former, reachesEverything: isInventory(path) || texts.some((text) => widelyFelt.test(text)) };
}

/** Opened by the group, or lying where its library looks (a removed file is not opened). */
function concernsRoot(path: string, group: LibraryGroup): boolean {
  return group.opened.includes(path) || (group.root !== undefined && liesUnder(path, group.root));
}

/** A site that came or went can take files out of a library that has no root now. An inventory counts only if it is in use. */
function concerns(path: string, group: LibraryGroup): boolean {
  if (isInventory(path)) return group.opened.includes(path);
  return concernsRoot(path, group) || group.asked.some((asked) => liesUnder(asked, dirname(path)));
}

function liesUnder(path: string, folder: string): boolean {
  const real = realPath(folder);
  return realPath(path).startsWith(real.endsWith(sep) ? real : real + sep);
}

function isInventory(path: string): boolean {
  return /\.csv$/i.test(path);
}

function addUsers(library: OpenLibrary, of: ReadonlySet<string>, into: Set<string>): void {
  for (const file of library.files()) {
    if (!into.has(file) && library.dependencies(file).some((used) => of.has(used))) into.add(file);
  }
}

/** The library as it was: former texts in place of the changed ones. */
async function formerLibrary(
  group: LibraryGroup,
  changed: readonly ChangedFile[],
  engine: Engine,
  store: SourceStore,
  asOf: string,
): Promise<OpenLibrary> {
  const library = await engine.library({ asOf });
  const paths = new Set(changed.map((file) => file.path));
  for (const path of group.opened) {
    const source = store.read(path);
    if (paths.has(path) || source.kind !== "text") continue;
    if (isInventory(path)) library.openInventory(store.nameOf(path), source.text);
    else library.open(store.nameOf(path), source.text);
  }
  for (const { path, former } of changed) if (former !== undefined) library.open(store.nameOf(path), former);
  return library;
}

/** Without former texts: a file whose names no longer resolve has an error in its structure now, whoever removed the name. */
function addFilesWithLostNames(library: OpenLibrary, reached: Set<string>): void {
  for (const file of library.files()) {
    const hasLost = () => library.findings(file).some((f) => f.family === "structure" && f.severity === "error");
    if (!reached.has(file) && hasLost()) reached.add(file);
  }
}
