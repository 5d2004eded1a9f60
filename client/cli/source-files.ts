/** From the paths that somebody typed to the files that are meant. */
import { realpathSync, type Stats, statSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { CannotRun, reasonOf } from "./cannot-run.ts";
import { Folders } from "./folders.ts";

/** Absolute paths, sorted by code unit, each file once. */
export interface FoundFiles {
  recipes: string[];
  /** `.csv` files that were named one by one. */
  inventories: string[];
  /** Folders or links that could not be followed. */
  unreadable: { path: string; reason: string }[];
}

/**
 * Files named by `paths`; folders are walked for `*.misce`, without `node_modules` and folders whose name begins with a dot.
 * Links are followed, each real folder once, so that a circle ends.
 *
 * @throws CannotRun where a path does not exist or a folder holds no recipe file: a check of nothing must not look like a clean one.
 */
export function findFiles(paths: readonly string[], cwd: string, folders = new Folders()): FoundFiles {
  const walk = new Walk(folders);
  const inventories = new Set<string>();
  for (const typed of paths) {
    const { path, stats } = existing(typed, cwd);
    if (stats.isDirectory()) {
      const before = walk.met;
      walk.folder(path);
      if (walk.met === before) {
        throw new CannotRun(`"${typed}" holds no .misce file. Name a folder with recipes, or a file.`);
      }
    } else if (!stats.isFile()) {
      throw new CannotRun(`"${typed}" is neither a file nor a folder. To check standard input, write -.`);
    } else if (/\.csv$/i.test(path)) inventories.add(path);
    else walk.file(path);
  }
  return {
    recipes: [...walk.files.values()].sort(),
    inventories: [...inventories].sort(),
    unreadable: walk.unreadable,
  };
}

/** @throws CannotRun for what is no inventory: its lots would be missing, and nobody would know. */
export function findInventories(named: readonly string[], cwd: string): string[] {
  const found = named.map((typed) => {
    const { path, stats } = existing(typed, cwd);
    const is = stats.isDirectory() ? "a folder" : stats.isFile() ? "another file" : "no file";
    if (is !== "another file" || !/\.csv$/i.test(path)) {
      // All words that follow the flag are its own.
      throw new CannotRun(
        `--inventory takes .csv files; "${typed}" is ${is}. Name the export itself, and everything else before --inventory.`,
      );
    }
    return path;
  });
  return [...new Set(found)].sort();
}

/** Every recipe file in and under a folder, by the same rules as `findFiles`; nothing found is no fault. */
export function recipesUnder(folder: string, folders = new Folders()): Pick<FoundFiles, "recipes" | "unreadable"> {
  const walk = new Walk(folders);
  walk.folder(folder);
  return { recipes: [...walk.files.values()].sort(), unreadable: walk.unreadable };
}

/** A path with backslashes is also tried with slashes: build scripts written on Windows are run elsewhere. */
function existing(typed: string, cwd: string): { path: string; stats: Stats } {
  if (typed === "") throw new CannotRun("One of the paths is empty. To check the working folder, write . for it.");
  let failure: unknown;
  for (const spelling of new Set([typed, typed.replaceAll("\\", "/")])) {
    try {
      const path = resolve(cwd, spelling);
      return { path, stats: statSync(path) };
    } catch (error) {
      failure ??= error;
    }
  }
  throw new CannotRun(`"${typed}" cannot be read: ${reasonOf(failure)}.`);
}

const notAFile = "it is neither a file nor a folder";

class Walk {
  /** By real path, so that a file reached by two ways is checked once. */
  readonly files = new Map<string, string>();
  readonly unreadable: { path: string; reason: string }[] = [];
  /** Recipe files met, those already known included, and what could not be read: it may hold some. */
  met = 0;
  private readonly walked = new Set<string>();
  private readonly links: string[] = [];

  constructor(private readonly folders: Folders) {}

  file(path: string, known?: string): void {
    this.met++;
    const real = known ?? this.attempt(path, () => realpathSync(path));
    if (real !== undefined && !this.files.has(real)) this.files.set(real, path);
  }

  folder(path: string): void {
    this.walk(path);
    // Links last: what can also be reached without one goes by that name, as an editor opens it.
    for (let link = this.links.shift(); link !== undefined; link = this.links.shift()) this.link(link);
  }

  private walk(path: string): void {
    const real = this.attempt(path, () => realpathSync(path));
    if (real === undefined) return;
    if (this.walked.has(real)) {
      this.met++;
      return;
    }
    this.walked.add(real);
    for (const entry of this.attempt(path, () => this.folders.entries(path)) ?? []) {
      const inside = join(path, entry.name);
      if (entry.isSymbolicLink()) this.links.push(inside);
      else if (entry.isDirectory()) {
        if (!isLeftOut(entry.name)) this.walk(inside);
      } else if (entry.isFile() && isRecipe(entry.name)) {
        // The real path of what is no link needs no asking.
        this.file(inside, real === path ? inside : join(real, entry.name));
      } else if (isRecipe(entry.name)) this.leave(inside, notAFile);
    }
  }

  private link(path: string): void {
    const name = basename(path);
    if (!isRecipe(name) && isLeftOut(name)) return;
    try {
      const kind = statSync(path);
      if (kind.isDirectory()) {
        if (!isLeftOut(name)) this.walk(path);
      } else if (isRecipe(name) && kind.isFile()) this.file(path);
      else if (isRecipe(name)) this.leave(path, notAFile);
    } catch (error) {
      // A broken link to something else than a recipe is nobody's concern here; a circle of links holds no file.
      if (isRecipe(name)) this.fail(path, error);
    }
  }

  private attempt<T>(path: string, read: () => T): T | undefined {
    try {
      return read();
    } catch (error) {
      this.fail(path, error);
      return undefined;
    }
  }

  private fail(path: string, error: unknown): void {
    this.leave(path, reasonOf(error));
  }

  private leave(path: string, reason: string): void {
    this.met++;
    this.unreadable.push({ path, reason });
  }
}

function isRecipe(name: string): boolean {
  return /\.misce$/i.test(name);
}

function isLeftOut(folder: string): boolean {
  return folder === "node_modules" || folder.startsWith(".");
}
