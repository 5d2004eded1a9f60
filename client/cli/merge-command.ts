/**
 * `misce merge`, git's merge driver for recipe files, and `misce merge-check` for a whole merge. Merging is by meaning; afterwards the
 * result is checked again, because two sound edits can break a limit together.
 */
import { spawnSync } from "node:child_process";
import { existsSync, writeFileSync } from "node:fs";
import { dirname, relative, resolve } from "node:path";
import type { Finding } from "../../shared/finding.ts";
import { requireDay, today } from "./as-of.ts";
import { CannotRun, reasonNotWritten } from "./cannot-run.ts";
import { meaningMakerOf } from "./compare-command.ts";
import { opened } from "./compare-pair.ts";
import { byRoot, libraryAround } from "./compare-sides.ts";
import { decode } from "./decode.ts";
import type { Engine } from "./engine-contract.ts";
import { commitOf, type GitTree, gitTop, stagedTree, treeAt } from "./git-trees.ts";
import { largestRecord, readFile } from "./read-file.ts";
import { visible } from "./reports/visible.ts";
import type { Surroundings } from "./surroundings.ts";

export interface MergeFlags {
  path?: string;
  asOf?: string;
  print?: boolean;
}

/** The merged text goes into `ours`, as git asks. @returns 0 merged and checked, 1 a conflict or a new error, for a person to settle */
export async function mergeCommand(
  [base, ours, theirs]: readonly [string, string, string],
  flags: MergeFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  const { cwd, stderr } = surroundings;
  const maker = await meaningMakerOf(engine);
  const asOf = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  const name = flags.path ?? ours;
  const texts = [base, ours, theirs].map((file) => textOf(resolve(cwd, file)));
  const write = (text: string) => (flags.print ? surroundings.stdout.write(text) : writeMerged(ours, text, cwd));
  if (texts.some((text) => text === undefined))
    return byLines([base, ours, theirs], "one side is not UTF-8 text", name, flags, surroundings);
  const [was, mine, yours] = texts as [string, string, string];
  const merged = maker.merge(was, mine, yours);
  if ("reason" in merged) return byLines([base, ours, theirs], merged.reason, name, flags, surroundings);
  write(merged.text);
  for (const { where, base: from, ours: own, theirs: other } of merged.conflicts) {
    const said = (text: string) => (text === "" ? "nothing (taken out)" : text.replace(/\s+/g, " "));
    stderr.write(
      visibleLine(
        `misce: ${name}: ${where === "" ? "the file" : where} was given two meanings. Ours says ${said(own)}; theirs says ${said(other)}; before stood ${said(from)}. Choose one.`,
      ),
    );
  }
  if (merged.conflicts.length > 0) return 1;
  const broken = await brokenTogether(
    resolve(cwd, flags.path ?? ours),
    { mine, yours, merged: merged.text },
    engine,
    cwd,
    asOf,
  );
  for (const { name: check, message } of broken) {
    stderr.write(
      visibleLine(
        `misce: ${name}: each side is sound, but together they are not: ${check}: ${message} Settle it, then add the file.`,
      ),
    );
  }
  return broken.length > 0 ? 1 : 0;
}

/** @throws CannotRun; the other side then stands in none of the files, and git must not take the merge for done */
function writeMerged(ours: string, text: string, cwd: string): void {
  try {
    writeFileSync(resolve(cwd, ours), text);
  } catch (error) {
    throw new CannotRun(`The merge cannot be written to "${ours}": ${reasonNotWritten(error)}.`);
  }
}

function visibleLine(text: string): string {
  return `${visible(text)}\n`;
}

/** Undefined where it is no text that can be read as recipes. */
function textOf(path: string): string | undefined {
  const read = readFile(path, { most: largestRecord });
  if ("reason" in read) throw new CannotRun(`"${path}" cannot be read: ${read.reason}.`);
  const decoded = "bytes" in read ? decode(read.bytes, path) : undefined;
  return decoded && "text" in decoded ? decoded.text : undefined;
}

/** Errors of the merged text that neither side has, each within the library as it lies in the folder. */
async function brokenTogether(
  path: string,
  texts: { mine: string; yours: string; merged: string },
  engine: Engine,
  cwd: string,
  asOf: string,
): Promise<Finding[]> {
  const home = existsSync(path)
    ? libraryAround(path, engine, cwd, asOf)
    : { root: undefined, texts: new Map<string, string>(), notOpened: [] };
  const name = relative(home.root ?? dirname(path), path).replaceAll("\\", "/");
  const errors = async (text: string) => {
    const library = await opened(new Map([...home.texts, [name, text]]), engine, asOf);
    return library.findings(name).filter(isStandingError);
  };
  return more(await errors(texts.merged), await errors(texts.mine), await errors(texts.yours));
}

function isStandingError({ severity, silenced }: Finding): boolean {
  return severity === "error" && !silenced;
}

/** Of each kind of error in each declaration, as many as stand beyond those that one of the sides has. */
function more(merged: readonly Finding[], mine: readonly Finding[], yours: readonly Finding[]): Finding[] {
  const count = (list: readonly Finding[], f: Finding) =>
    list.filter((o) => o.name === f.name && o.subject === f.subject).length;
  const said = (list: readonly Finding[], f: Finding) =>
    list.some((o) => o.name === f.name && o.subject === f.subject && o.message === f.message);
  return merged.filter((f) => {
    if (said(mine, f) || said(yours, f)) return false;
    return count(merged, f) > Math.max(count(mine, f), count(yours, f));
  });
}

/** Where a side cannot be read as recipes: by lines, as for any text, and said so. A clean result is still for a person to look at. */
function byLines(
  [base, ours, theirs]: readonly string[],
  reason: string,
  name: string,
  { print }: MergeFlags,
  { cwd, stderr, stdout }: Surroundings,
): 0 | 1 {
  stderr.write(visibleLine(`misce: ${name}: not merged by meaning, but by lines. ${reason}`));
  const words = [
    "merge-file",
    "-L",
    "ours",
    "-L",
    "base",
    "-L",
    "theirs",
    ...(print ? ["-p"] : []),
    ours!,
    base!,
    theirs!,
  ];
  const run = spawnSync("git", words, { cwd });
  if (run.error || run.status === null || run.status > 127)
    throw new CannotRun(
      `"${name}" could not be merged by lines: ${run.error?.message ?? run.stderr.toString().trim()}.`,
    );
  if (print) stdout.write(run.stdout.toString());
  return 1;
}

/** What the whole merge brings: errors in the staged state that neither HEAD nor the other side has. */
export async function mergeCheckCommand(
  other: string | undefined,
  flags: MergeFlags,
  engine: Engine,
  surroundings: Surroundings,
): Promise<0 | 1> {
  const { cwd, stderr, env } = surroundings;
  const asOf = flags.asOf === undefined ? today(surroundings.now()) : requireDay(flags.asOf);
  const top = gitTop(cwd);
  const named =
    other ??
    Object.keys(env)
      .find((key) => /^GITHEAD_[0-9a-f]{40,64}$/.test(key))
      ?.slice("GITHEAD_".length) ??
    "MERGE_HEAD";
  const [head, theirs] = [commitOf(top, "HEAD"), commitOf(top, named)];
  if (head && !theirs && other !== undefined) throw new CannotRun(`git knows no revision "${other}" here.`);
  if (!head || !theirs) throw new CannotRun("No merge is under way here. Name the other side's revision.");
  const errorsIn = async (tree: GitTree) => {
    const found: Finding[] = [];
    const texts = new Map<string, string>();
    for (const [name, bytes] of tree.files) {
      const decoded = decode(bytes, name);
      if ("text" in decoded) texts.set(name, decoded.text);
    }
    for (const group of byRoot(texts).values()) {
      const library = await opened(group, engine, asOf);
      for (const file of library.files()) found.push(...library.findings(file).filter(isStandingError));
    }
    return found;
  };
  const [mine, yours, merged] = [
    await errorsIn(treeAt(top, head, "HEAD")),
    await errorsIn(treeAt(top, theirs, named)),
    await errorsIn(stagedTree(top)),
  ];
  const broken = more(merged, mine, yours);
  for (const { name, message, span } of broken) {
    stderr.write(
      visibleLine(
        `misce: ${span.file}: each side of the merge is sound, but together they are not: ${name}: ${message}`,
      ),
    );
  }
  return broken.length > 0 ? 1 : 0;
}
