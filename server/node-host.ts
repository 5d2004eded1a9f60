/** Files from the disk. Reading is synchronous behind the promises: at a thousand small files that is faster than a thousand promises. */
import { type Dirent, lstatSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { decodeBytes, isSurely } from "../language/syntax/decode.ts";
import { isRecord } from "./approval-records.ts";
import { isLeftOut } from "./folders.ts";
import { type Host, type Source, sourceOf } from "./host.ts";
import { nodeHistory } from "./node-history.ts";
import { slim } from "./node-memory.ts";

const isWindows = process.platform === "win32";

function slashes(path: string): string {
  return isWindows ? windowsKey(path) : path;
}

/** Editors write the letter of a drive either way, and one file must not have two keys. */
export function windowsKey(path: string): string {
  return path.replaceAll("\\", "/").replace(/^[a-z](?=:)/, (letter) => letter.toUpperCase());
}

export const nodeHost: Host = {
  keyOf(uri) {
    if (!/^file:/i.test(uri)) return uri; // the name of a scheme may stand in either case (RFC 3986, 3.1)
    try {
      return slashes(fileURLToPath(uri));
    } catch {
      return uri;
    }
  },
  uriOf: (key) => (isPath(key) ? pathToFileURL(key).href : key),
  folderOf(key) {
    // An unsaved text may know already where it will lie.
    const path = key.replace(/^untitled:(?=\/)/, "");
    if (!isPath(path)) return undefined;
    const folder = slashes(dirname(path));
    return folder === path ? undefined : folder;
  },
  recipesUnder: async (folder) => [...filesUnder(folder).values()],
  async linkedUnder(folder) {
    const base = attempt(() => realpathSync(folder));
    if (base === undefined) return [];
    const isLinked = ([real, key]: [string, string]) => real !== slashes(join(base, key.slice(folder.length)));
    return [...filesUnder(folder)].filter(isLinked).map(([, key]) => key);
  },
  async reaches(folder, key) {
    const [file, base] = [attempt(() => realpathSync(key)), attempt(() => realpathSync(folder))];
    if (file === undefined || base === undefined || !isFile(file)) return false;
    // Without a link on the way there is nothing to search.
    const isPlain = slashes(file) === slashes(join(base, key.slice(folder.length)));
    return isPlain || filesUnder(folder).get(slashes(file)) === key;
  },
  async recipesIn(folder) {
    if (!isPath(folder)) return [];
    return entriesOf(folder)
      .filter((e) => isRecipe(e.name) && (e.isFile() || (e.isSymbolicLink() && isFile(join(folder, e.name)))))
      .map((e) => slashes(join(folder, e.name)));
  },
  async recordsIn(folder) {
    if (!isPath(folder)) return [];
    return entriesOf(folder)
      .filter((e) => isRecord(e.name))
      .map((e) => slashes(join(folder, e.name)));
  },
  history: nodeHistory,
  read: async (key) => (isPath(key) ? readFile(key) : undefined),
  async stamp(key) {
    try {
      const { mtimeMs, ctimeMs, ino, size } = await stat(key);
      return `${mtimeMs} ${ctimeMs} ${ino} ${size}`; // renamed over and changed rights do not show in the time of writing
    } catch {
      return undefined;
    }
  },
  resolve: (folder, path) => slashes(resolve(folder, path)),
  now: () => new Date(),
  slim,
  after(milliseconds, run) {
    if (milliseconds === 0) {
      const soon = setImmediate(run);
      return () => clearImmediate(soon);
    }
    const timer = setTimeout(run, milliseconds);
    timer.unref();
    return () => clearTimeout(timer);
  },
};

/** Names by real path. */
function filesUnder(folder: string): Map<string, string> {
  const found = new Map<string, string>();
  const links: string[] = [];
  const seen = new Set<string>();
  if (isPath(folder)) walk(folder, found, seen, links);
  // Links last: what can also be reached without one goes by that name, as an editor opens it.
  for (let link = links.shift(); link !== undefined; link = links.shift()) follow(link, found, seen, links);
  return found;
}

function isPath(key: string): boolean {
  return key.startsWith("/") || /^[A-Za-z]:\//.test(key);
}

function isRecipe(name: string): boolean {
  return /\.misce$/i.test(name);
}

/** The words of the command line for what happens most. */
const reasons: Readonly<Record<string, string | undefined>> = {
  EACCES: "there is no permission for it",
  EPERM: "there is no permission for it",
  ELOOP: "its links lead in a circle",
};

function readFile(path: string): Source | undefined {
  try {
    // Three times as fast as bytes and a decoder; whatever is in doubt is read again strictly.
    const text = readFileSync(path, "utf8");
    return isSurely(text) ? { kind: "text", text } : sourceOf(decodeBytes(readFileSync(path)));
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const isNone = code === "ENOENT" || code === "ENOTDIR" || code === "EISDIR";
    if (isNone && !isLink(path)) return undefined;
    const why = isNone ? "it is a link that leads to no file" : (reasons[code ?? ""] ?? code ?? String(error));
    return { kind: "unreadable", name: "file-not-read", reason: `The file could not be read (${why}).` };
  }
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return []; // A folder that may not be listed holds nothing this user can open; the command line names it.
  }
}

/** By real path, so that a file reached by two ways is checked once and a circle of links ends. */
function walk(folder: string, found: Map<string, string>, seen: Set<string>, links: string[]): void {
  const real = attempt(() => realpathSync(folder));
  if (real === undefined || seen.has(real)) return;
  seen.add(real);
  const base = folder.endsWith("/") ? folder : `${folder}/`;
  const realBase = slashes(real).replace(/\/?$/, "/");
  for (const entry of entriesOf(folder).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.isSymbolicLink()) links.push(base + entry.name);
    else if (entry.isFile() && isRecipe(entry.name)) {
      if (!found.has(realBase + entry.name)) found.set(realBase + entry.name, base + entry.name);
    } else if (entry.isDirectory() && !isLeftOut(entry.name)) walk(base + entry.name, found, seen, links);
  }
}

function follow(link: string, found: Map<string, string>, seen: Set<string>, links: string[]): void {
  const kind = attempt(() => statSync(link));
  // What a broken link should bring in is missing from the library.
  if (kind === undefined && isRecipe(link)) found.set(link, link);
  if (kind?.isDirectory()) {
    if (!isLeftOut(basename(link))) walk(link, found, seen, links);
  } else if (kind?.isFile() && isRecipe(link)) {
    const file = attempt(() => realpathSync(link));
    if (file !== undefined && !found.has(slashes(file))) found.set(slashes(file), link);
  }
}

function isLink(path: string): boolean {
  return attempt(() => lstatSync(path))?.isSymbolicLink() ?? false;
}

/** Whoever reads from a pipe waits for what somebody may write into it. */
function isFile(path: string): boolean {
  return attempt(() => statSync(path))?.isFile() ?? false;
}

function attempt<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch {
    return undefined;
  }
}
