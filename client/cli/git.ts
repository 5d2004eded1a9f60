/** What git knows about changes. Every call names its arguments one by one: no shell, no quoting. */
import { execFileSync } from "node:child_process";
import { isAbsolute, join, relative } from "node:path";
import { CannotRun } from "./cannot-run.ts";

export interface ChangesSince {
  /**
   * Absolute paths of files that differ from a revision, those not yet under version control and those removed included, and those at
   * which git was told not to look, whether they are there or not.
   */
  paths: string[];
  /** Absolute folders of other repositories within this one. What was removed there, or never fetched, git does not tell. */
  otherRepositories: string[];
  /**
   * Whether git would have named the file had it changed: not one that it ignores, was told to take as unchanged, or that lies in
   * another repository or in none. `path` absolute, without links.
   */
  follows(path: string): boolean;
  /** The text a path had at the revision; undefined where it was not there. */
  formerBytes(path: string): Buffer | undefined;
}

/** @throws CannotRun outside a working copy, without git, and for an unknown revision. */
export function changesSince(revision: string, cwd: string): ChangesSince {
  const top = git(cwd, ["rev-parse", "--show-toplevel"], "--changed-since needs a git working copy")
    .toString()
    .replace(/\r?\n$/, "");
  const commit = git(
    cwd,
    ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`],
    `--changed-since: git knows no revision "${revision}" here. In a shallow copy, fetch it first`,
  )
    .toString()
    .trim();
  const differing = git(
    top,
    ["diff", "--name-only", "-z", "--no-renames", commit, "--"],
    "git could not list the changes",
  );
  const untracked = git(top, ["ls-files", "--others", "--exclude-standard", "-z"], "git could not list new files");
  const names = new Map<string, string>();
  const otherRepositories = new Set<string>();
  for (const name of `${differing}${untracked}`.split("\0")) {
    // Whole folders are named where a repository of its own lies in them.
    if (name.endsWith("/")) otherRepositories.add(join(top, name.slice(0, -1)));
    else if (name !== "") names.set(join(top, name), name);
  }
  const followed = new Set<string>();
  for (const entry of git(top, ["ls-files", "-v", "-z"], "git could not list its files").toString().split("\0")) {
    // "H path"; other letters mark what git does not look at (assume-unchanged, skip-worktree) or holds unmerged.
    if (entry === "") continue;
    const name = entry.slice(2);
    if (entry.startsWith("H ")) followed.add(join(top, name));
    else names.set(join(top, name), name);
  }
  for (const name of submodules(top, commit)) otherRepositories.add(join(top, name));
  return {
    paths: [...names.keys()],
    otherRepositories: [...otherRepositories],
    follows: (path) => followed.has(path) || names.has(path),
    formerBytes(path) {
      const name = names.get(path) ?? relative(top, path);
      if (name.startsWith("..") || isAbsolute(name)) return undefined;
      const listed = git(top, ["ls-tree", "-z", commit, "--", name], `git could not look up "${name}"`).toString();
      const blob = /^\d+ blob ([0-9a-f]+)\t/.exec(listed)?.[1];
      return blob === undefined
        ? undefined
        : git(top, ["cat-file", "blob", blob], `git could not read "${name}" as it was`);
    },
  };
}

/** Names of folders that stand for another repository, now or at the commit. */
function submodules(top: string, commit: string): string[] {
  const now = git(top, ["ls-files", "-s", "-z"], "git could not list its files").toString();
  const before = git(top, ["ls-tree", "-r", "-z", commit], "git could not list its files as they were").toString();
  return `${now}${before}`.split("\0").flatMap((entry) => /^160000 [^\t]*\t(.*)$/s.exec(entry)?.[1] ?? []);
}

function git(cwd: string, words: readonly string[], failure: string): Buffer {
  try {
    // Literal path names: a file called `*.misce` must not stand for others.
    return execFileSync("git", ["--literal-pathspecs", ...words], {
      cwd,
      stdio: ["ignore", "pipe", "pipe"],
      maxBuffer: 1024 * 1024 * 1024,
    });
  } catch (error) {
    const fault = error as NodeJS.ErrnoException & { stderr?: Buffer };
    if (fault.code === "ENOENT") throw new CannotRun("--changed-since needs git, which was not found on this machine.");
    const said = fault.stderr?.toString().trim().split("\n")[0];
    throw new CannotRun(`${failure}${said ? ` (git says: ${said})` : ""}.`);
  }
}
