/**
 * `misce git-setup`: registers the diff and merge drivers in this working copy. The attributes are a file of the repository and are
 * shared; the commands are local configuration, so each person runs this once (git takes no commands from a repository, and rightly).
 */
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { CannotRun } from "./cannot-run.ts";
import { ask, gitTop } from "./git-trees.ts";
import type { Surroundings } from "./surroundings.ts";

export interface GitSetupFlags {
  command?: string;
  diff?: string;
}

const attributes = "*.misce diff=misce merge=misce";
const hookMark = "# misce merge-check";

export function gitSetupCommand(flags: GitSetupFlags, { cwd, program, stdout }: Surroundings): 0 {
  const top = gitTop(cwd);
  const form = flags.diff ?? "textconv";
  if (form !== "textconv" && form !== "compare") throw new CannotRun(`--diff is "${form}". Write textconv or compare.`);
  if (flags.command?.trim() === "") throw new CannotRun("--command is empty. Write how git is to start this program.");
  const misce = flags.command ?? ownCommand(program);
  const set = (key: string, value: string) => ask(top, ["config", "--local", key, value], `git could not set ${key}`);
  set("diff.misce.xfuncname", "^(recipe|drug|fluid|stock|device|bands|reference|lots|site).*$");
  set("diff.misce.textconv", `${misce} textconv`);
  set("diff.misce.cachetextconv", "false");
  if (form === "compare") set("diff.misce.command", `${misce} git-diff`);
  else unset(top, "diff.misce.command");
  set("merge.misce.name", "merge of recipes by meaning");
  set("merge.misce.driver", `${misce} merge --path %P %O %A %B`);
  const added = addLine(join(top, ".gitattributes"));
  const hook = addHook(top, misce);
  stdout.write(
    [
      `git now shows changes of *.misce ${form === "compare" ? "as misce compare tells them" : "as canonical text, without layout and comments"}, and merges them by meaning.`,
      added
        ? "Wrote .gitattributes; commit it, so that it holds for everybody."
        : ".gitattributes has the line already.",
      hook,
      "",
    ].join("\n"),
  );
  return 0;
}

/** This very program, by the words with which git's shell can start it. */
function ownCommand(program: string | undefined): string {
  return program === undefined ? "misce" : `${quoted(process.execPath)} ${quoted(program)}`;
}

function quoted(path: string): string {
  return `'${path.replaceAll("\\", "/").replaceAll("'", "'\\''")}'`;
}

function unset(top: string, key: string): void {
  try {
    ask(top, ["config", "--local", "--unset", key], "");
  } catch (error) {
    if (!(error instanceof CannotRun)) throw error; // it was not set
  }
}

function addLine(path: string): boolean {
  const text = existsSync(path) ? readFileSync(path, "utf8") : "";
  if (text.split(/\r?\n/).some((line) => line.trim() === attributes)) return false;
  const newline = text === "" || text.endsWith("\n") ? "" : "\n";
  writeFileSync(path, `${text}${newline}${attributes}\n`);
  return true;
}

/** Two files that merge without a conflict can break a limit together: no driver sees both, the hook does. */
function addHook(top: string, misce: string): string {
  const path = resolve(
    top,
    ask(top, ["rev-parse", "--git-path", "hooks/pre-merge-commit"], "git has no place for hooks").trim(),
  );
  const before = existsSync(path) ? readFileSync(path, "utf8") : undefined;
  if (before !== undefined && !before.includes(hookMark)) {
    return "A pre-merge-commit hook stands already; add `misce merge-check` to it, so that the whole of a merge is checked.";
  }
  // A template or core.hooksPath may leave git without the folder.
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(
    path,
    `#!/bin/sh\n${hookMark}: errors that neither side had stop the merge\nexec ${misce} merge-check\n`,
  );
  chmodSync(path, 0o755);
  return "A merge is checked as a whole before it is committed (hook pre-merge-commit).";
}
