/** Recipe files as git holds them: at a revision, in the index, or in the working copy. No shell, no quoting; names end in NUL. */
import { execFileSync } from "node:child_process";
import { lstatSync, readlinkSync, type Stats } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { CannotRun } from "./cannot-run.ts";
import { tooLarge } from "./decode.ts";
import { largestRecord, readFile } from "./read-file.ts";

export interface GitTree {
  /** Bytes by path relative to the top of the working copy, with forward slashes. */
  files: Map<string, Buffer>;
  /** Recipe files that are links, with the path that they lead to, as `files` counts them: what they hold stands there. */
  links: Map<string, string>;
  /** Files that are there and cannot be read. */
  unreadable: { file: string; reason: string }[];
  /** Folders that are repositories of their own (submodules), with what they stand at: their files are none of these. */
  others: Map<string, string>;
  /** The commit, `staged`, or `the working copy`. */
  label: string;
}

/** Absolute path of the working copy. @throws CannotRun where there is none */
export function gitTop(cwd: string): string {
  return ask(cwd, ["rev-parse", "--show-toplevel"], "A git working copy is needed here").replace(/\r?\n$/, "");
}

/** Whether the copy lacks its earlier history, as a build service often takes it. */
export function isShallow(top: string): boolean {
  return ask(top, ["rev-parse", "--is-shallow-repository"], "git could not tell its history").trim() === "true";
}

/** The commit behind a name, or undefined where git knows none (or where there is no git). */
export function commitOf(cwd: string, revision: string): string | undefined {
  try {
    return (
      ask(cwd, ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`], "").trim() || undefined
    );
  } catch (error) {
    if (error instanceof CannotRun) return undefined;
    throw error;
  }
}

export function treeAt(top: string, commit: string, label: string): GitTree {
  const listed = ask(top, ["ls-tree", "-r", "-z", "--full-tree", commit], `git could not list the files of ${label}`);
  const files = blobs(top, entries(listed, /^100\d+ blob ([0-9a-f]+)\t(.*)$/s));
  const links = leadingTo(top, blobs(top, entries(listed, /^120000 blob ([0-9a-f]+)\t(.*)$/s)));
  return { label, files, links, unreadable: [], others: othersIn(listed, /^160000 commit ([0-9a-f]+)\t(.*)$/s) };
}

/** What is staged for the next commit. */
export function stagedTree(top: string): GitTree {
  const listed = ask(top, ["ls-files", "-s", "-z", "--full-name"], "git could not list what is staged");
  const files = blobs(top, entries(listed, /^100\d+ ([0-9a-f]+) 0\t(.*)$/s));
  const links = leadingTo(top, blobs(top, entries(listed, /^120000 ([0-9a-f]+) 0\t(.*)$/s)));
  return { label: "staged", files, links, unreadable: [], others: stagedOthers(listed) };
}

/** Files in the folder now, those not yet under version control included. */
export function workingTree(top: string): GitTree {
  const listed = ask(
    top,
    ["ls-files", "-z", "--cached", "--others", "--exclude-standard"],
    "git could not list the files",
  );
  const files = new Map<string, Buffer>();
  const targets = new Map<string, Buffer>();
  const unreadable: GitTree["unreadable"] = [];
  for (const name of new Set(listed.split("\0").filter(isRecipe))) {
    const path = join(top, name);
    const stats = lstatOf(path);
    // Removed in the folder and not yet in git (a folder may lie in its place): it is not there now.
    if (!stats || stats.isDirectory()) continue;
    if (stats.isSymbolicLink()) {
      targets.set(name, Buffer.from(readlinkSync(path)));
      continue;
    }
    const read = readFile(path, { most: largestRecord });
    if ("bytes" in read) files.set(name, read.bytes);
    else if ("tooLarge" in read) unreadable.push({ file: name, reason: tooLarge(name, read.tooLarge).message });
    else unreadable.push({ file: name, reason: `It cannot be read: ${read.reason}.` });
  }
  const others = stagedOthers(ask(top, ["ls-files", "-s", "-z"], "git could not list what is staged"));
  if (others.size > 0) {
    const words = ["diff", "--name-only", "-z", "--ignore-submodules=none", "--", ...others.keys()];
    const differing = ask(top, words, "git could not look into the submodules").split("\0");
    for (const name of differing) if (others.has(name)) others.set(name, "changed");
  }
  return { label: "the working copy", files, links: leadingTo(top, targets), unreadable, others };
}

function lstatOf(path: string): Stats | undefined {
  try {
    return lstatSync(path, { throwIfNoEntry: false });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOTDIR") return undefined;
    throw error;
  }
}

function leadingTo(top: string, targets: ReadonlyMap<string, Buffer>): Map<string, string> {
  const entries = [...targets].map(([name, target]): [string, string] => {
    const path = resolve(top, dirname(name), target.toString());
    return [name, relative(top, path).replaceAll("\\", "/")];
  });
  return new Map(entries);
}

function stagedOthers(listed: string): Map<string, string> {
  return othersIn(listed, /^160000 ([0-9a-f]+) \d\t(.*)$/s);
}

function othersIn(listed: string, pattern: RegExp): Map<string, string> {
  const found = listed.split("\0").flatMap((entry): [string, string][] => {
    const parts = pattern.exec(entry);
    return parts ? [[parts[2]!, parts[1]!]] : [];
  });
  return new Map(found);
}

/** Whether a recipe file stands in a submodule, now or at one of these commits; yes where that cannot be told. */
export function mayHaveHeldRecipes(folder: string, states: readonly (string | undefined)[]): boolean {
  try {
    const lists = states.map((state) =>
      state !== undefined && /^[0-9a-f]+$/.test(state)
        ? ask(folder, ["ls-tree", "-r", "-z", "--name-only", state], "git does not know the submodule's commit")
        : ask(folder, ["ls-files", "-z"], "git could not list the submodule"),
    );
    return lists.some((list) => list.split("\0").some(isRecipe));
  } catch (error) {
    if (error instanceof CannotRun) return true;
    throw error;
  }
}

/** Commits that brought a text into a file, newest first. */
export function commitsBringing(top: string, text: string, file: string): string[] {
  const out = ask(top, ["log", "--format=%H", `-S${text}`, "--", file], "git could not look through the history");
  return out.split("\n").filter((line) => line !== "");
}

function isRecipe(name: string): boolean {
  return /\.misce$/i.test(name);
}

function entries(listed: string, pattern: RegExp): [name: string, blob: string][] {
  return listed.split("\0").flatMap((entry): [string, string][] => {
    const parts = pattern.exec(entry);
    return parts && isRecipe(parts[2]!) ? [[parts[2]!, parts[1]!]] : [];
  });
}

/** All in one conversation with git: a process for each of a thousand files would take a minute. */
function blobs(top: string, wanted: readonly [name: string, blob: string][]): Map<string, Buffer> {
  const files = new Map<string, Buffer>();
  if (wanted.length === 0) return files;
  const input = `${wanted.map(([, blob]) => blob).join("\n")}\n`;
  const out = bytes(top, ["cat-file", "--batch"], "git could not read the files", input);
  let at = 0;
  for (const [name] of wanted) {
    const end = out.indexOf(10, at);
    const size = Number(out.subarray(at, end).toString().split(" ")[2]);
    files.set(name, out.subarray(end + 1, end + 1 + size));
    at = end + 1 + size + 1;
  }
  return files;
}

export function ask(cwd: string, words: readonly string[], failure: string): string {
  return bytes(cwd, words, failure).toString();
}

function bytes(cwd: string, words: readonly string[], failure: string, input?: string): Buffer {
  try {
    return execFileSync("git", ["--literal-pathspecs", ...words], {
      cwd,
      stdio: [input === undefined ? "ignore" : "pipe", "pipe", "pipe"],
      maxBuffer: 1024 * 1024 * 1024,
      ...(input === undefined ? {} : { input }),
    });
  } catch (error) {
    const fault = error as NodeJS.ErrnoException & { stderr?: Buffer };
    if (fault.code === "ENOENT") throw new CannotRun("This needs git, which was not found on this machine.");
    const said = fault.stderr?.toString().trim().split("\n")[0];
    throw new CannotRun(`${failure}${said ? ` (git says: ${said})` : ""}.`);
  }
}
