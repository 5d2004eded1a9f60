/**
 * Which files share one library. A library root is the folder of the file that declares `site`; a file belongs to the nearest
 * root above it, and a file with no root above it stands alone with the built-in devices.
 */
import type { Dirent } from "node:fs";
import { dirname, join } from "node:path";
import { declaresSite } from "../../language/syntax/declares-site.ts";
import { CannotRun } from "./cannot-run.ts";
import type { Engine, OpenLibrary } from "./engine-contract.ts";
import { byCodeUnit } from "./folders.ts";
import type { KnownErrors } from "./known-errors.ts";
import { type FoundFiles, recipesUnder } from "./source-files.ts";
import type { SourceStore } from "./source-store.ts";

export interface LibraryGroup {
  /** Absolute folder, or undefined for a file that stands alone. */
  root: string | undefined;
  /** Errors that are not shown, so that nothing may be left out on their account. */
  known: KnownErrors | undefined;
  /** The library with all of `opened` in it, made when first asked for: a run that remembers its answers needs none. */
  library(): Promise<OpenLibrary>;
  /** Absolute paths of all that belongs to it, whether it was asked for or not. */
  opened: string[];
  /** Those of `opened` that are inventory exports. */
  inventories: Set<string>;
  /** Absolute paths that the run asks about, sorted. */
  asked: string[];
}

export interface OpenedLibraries {
  groups: LibraryGroup[];
  /** Files that nobody asked about but that belong, or may belong, to a library of the run: without them it is not whole. */
  missing: { path: string; reason: string }[];
}

/** Finds roots by a cheap look at the text; one look a folder. */
class Roots {
  private readonly known = new Map<string, boolean>();
  /** Files that may declare a site, for all that anybody can see. */
  readonly undecided = new Set<string>();

  constructor(private readonly store: SourceStore) {}

  of(file: string): string | undefined {
    const own = this.store.read(file);
    let folder = dirname(file);
    // Standard input and files named otherwise than *.misce are not met in the folder's listing.
    if (own.kind === "text" && declaresSite(own.text)) return folder;
    for (;;) {
      if (this.isRoot(folder)) return folder;
      const above = dirname(folder);
      if (above === folder) return undefined;
      folder = above;
    }
  }

  private isRoot(folder: string): boolean {
    const known = this.known.get(folder);
    if (known !== undefined) return known;
    const is = this.recipesIn(folder).some((path) => {
      const source = this.store.read(path);
      if (source.kind !== "text") this.undecided.add(path);
      return source.kind === "text" && declaresSite(source.text);
    });
    this.known.set(folder, is);
    return is;
  }

  private recipesIn(folder: string): string[] {
    try {
      const entries = this.store.folders.entries(folder);
      return entries.filter((e) => mayBeText(e) && /\.misce$/i.test(e.name)).map((e) => join(folder, e.name));
    } catch {
      // A folder above that may not be listed cannot be this user's library; the file itself is read elsewhere.
      return [];
    }
  }
}

/** Whoever opens a pipe waits for what somebody may write into it; behind a link may stand a file. */
function mayBeText(entry: Dirent): boolean {
  return entry.isFile() || entry.isSymbolicLink();
}

/**
 * Finds every library that holds one of `recipes`, completely: names in files that were not asked about count too.
 * An inventory goes to the library in whose folder it lies, else to every library of the run.
 */
export function librariesOf(
  engine: Engine,
  store: SourceStore,
  asOf: string,
  recipes: readonly string[],
  inventories: readonly string[],
  /** Errors of a library that are not shown. */
  knownIn: (root: string | undefined) => KnownErrors | undefined = () => undefined,
): OpenedLibraries {
  const roots = new Roots(store);
  const missing = new Map<string, string>();
  const groups = new Map<string, LibraryGroup>();
  for (const path of recipes) {
    const root = roots.of(path);
    const key = root === undefined ? `file ${path}` : `root ${root}`;
    let group = groups.get(key);
    if (!group) {
      group = newGroup(root, engine, store, asOf, knownIn(root));
      groups.set(key, group);
    }
    group.asked.push(path);
  }
  for (const group of groups.values()) openAll(group, store, roots, missing);
  for (const path of inventories) openInventory(path, [...groups.values()], store, roots);
  for (const path of roots.undecided) missing.set(path, reasonUnread(path, store));
  for (const path of recipes) missing.delete(path);
  return {
    groups: [...groups.values()].sort((a, b) => byCodeUnit(a.asked[0]!, b.asked[0]!)),
    missing: [...missing].map(([path, reason]) => ({ path, reason })).sort((a, b) => byCodeUnit(a.path, b.path)),
  };
}

/**
 * For a command that answers from the whole library.
 * @throws CannotRun at the first file that was not read, asked for or not
 */
export function requireWhole(found: FoundFiles, { missing }: OpenedLibraries, store: SourceStore): void {
  const [unread] = [
    ...found.unreadable.map(({ path, reason }) => ({ path, reason: `It could not be read: ${reason}.` })),
    ...missing,
    ...found.recipes
      .filter((path) => store.read(path).kind !== "text")
      .map((path) => ({ path, reason: reasonUnread(path, store) })),
  ];
  if (!unread) return;
  const name = store.nameOf(unread.path);
  throw new CannotRun(`"${name}" is missing from the library, so nothing is answered. ${unread.reason}`);
}

function newGroup(
  root: string | undefined,
  engine: Engine,
  store: SourceStore,
  asOf: string,
  known: KnownErrors | undefined,
): LibraryGroup {
  let made: Promise<OpenLibrary> | undefined;
  const group: LibraryGroup = {
    root,
    known,
    opened: [],
    inventories: new Set(),
    asked: [],
    library() {
      made ??= engine.library(known ? { asOf, known } : { asOf }).then((library) => {
        for (const path of group.opened) {
          const source = store.read(path);
          if (source.kind !== "text") continue;
          if (group.inventories.has(path)) library.openInventory(store.nameOf(path), source.text);
          else library.open(store.nameOf(path), source.text);
        }
        return library;
      });
      return made;
    },
  };
  return group;
}

function reasonUnread(path: string, store: SourceStore): string {
  const source = store.read(path);
  if (source.kind === "finding") return source.finding.message;
  return `It could not be read: ${source.kind === "unreadable" ? source.reason : "unknown reason"}.`;
}

function openAll(group: LibraryGroup, store: SourceStore, roots: Roots, missing: Map<string, string>): void {
  const paths = new Set(group.asked);
  if (group.root !== undefined) {
    const found = recipesUnder(group.root, store.folders);
    for (const path of found.recipes) if (roots.of(path) === group.root) paths.add(path);
    for (const { path, reason } of found.unreadable) missing.set(path, `It could not be read: ${reason}.`);
  }
  for (const path of [...paths].sort()) {
    const source = store.read(path);
    if (source.kind !== "text") {
      missing.set(path, reasonUnread(path, store));
      continue;
    }
    group.opened.push(path);
  }
}

function openInventory(path: string, groups: readonly LibraryGroup[], store: SourceStore, roots: Roots): void {
  const source = store.read(path);
  if (source.kind !== "text") return;
  const root = roots.of(path);
  const own = groups.filter((group) => group.root !== undefined && group.root === root);
  for (const group of own.length > 0 ? own : groups) {
    group.opened.push(path);
    group.inventories.add(path);
    group.asked.push(path);
  }
}
