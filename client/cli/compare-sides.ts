/** From what somebody typed (files, folders, git revisions, --staged) to the texts of two sides, each in its libraries. */
import { existsSync, readFileSync, statSync } from "node:fs";
import { basename, dirname, join, relative, resolve } from "node:path";
import { declaresSite } from "../../language/syntax/declares-site.ts";
import type { Comparison } from "../../shared/comparison.ts";
import { CannotRun } from "./cannot-run.ts";
import { headOf, sidesOf, withRevision } from "./compare-revisions.ts";
import { type ComparedSide, type ComparedSides, type Operand, putFile } from "./compared-side.ts";
import { decode, decodeFile } from "./decode.ts";
import type { Engine } from "./engine-contract.ts";
import { commitOf, gitTop, stagedTree, treeAt, workingTree } from "./git-trees.ts";
import { librariesOf } from "./library-groups.ts";
import { recipesUnder } from "./source-files.ts";
import { SourceStore } from "./source-store.ts";

/**
 * @param engine finds the library that a single file belongs to
 * @param of the file of the working copy that both are states of, where they lie elsewhere under other names
 */
export function comparedSides(
  words: readonly string[],
  staged: boolean,
  cwd: string,
  engine: Engine,
  asOf: string,
  of?: string,
): ComparedSides {
  if (words.length > 2) throw new CannotRun("compare takes two things: what was, and what is.");
  const operands = words.map((word) => operandOf(word, cwd));
  const [first, second] = operands;
  const gone = operands.find((operand) => operand.kind === "gone");
  if (gone && (staged || !operands.some((o) => o.kind === "revision"))) throw isNothingKnown(gone);
  if (staged) {
    if (second) throw new CannotRun("With --staged name at most the revision to compare with.");
    if (first && first.kind !== "revision") throw new CannotRun(`"${words[0]}" is no revision that git knows here.`);
    const top = gitTop(cwd);
    const commit = first ?? headOf(cwd);
    return sidesOf(top, treeAt(top, commit.commit, commit.label), stagedTree(top));
  }
  if (!second) {
    if (first && first.kind !== "revision")
      throw new CannotRun(`Say what "${words[0]}" is to be compared with: a second file, folder or revision.`);
    const top = gitTop(cwd);
    const commit = first ?? headOf(cwd);
    return sidesOf(top, treeAt(top, commit.commit, commit.label), workingTree(top));
  }
  return two(first!, second, { cwd, engine, asOf, of });
}

interface Around {
  cwd: string;
  engine: Engine;
  asOf: string;
  of: string | undefined;
}

/** What lies in the folder goes before a revision of the same name. */
function operandOf(word: string, cwd: string): Operand {
  if (word === "/dev/null" || word === "nul") return { kind: "nothing", label: "nothing" };
  const path = resolve(cwd, word);
  if (existsSync(path))
    return { kind: statSync(path).isDirectory() ? "folder" : "file", path, label: spoken(word, path) };
  const commit = commitOf(cwd, word);
  if (commit) return { kind: "revision", commit, label: word };
  return { kind: "gone", path, label: word };
}

function isNothingKnown({ label }: Operand): CannotRun {
  return new CannotRun(`"${label}" is no file or folder, and git knows no revision of that name here.`);
}

/** `..` says nothing to whoever reads the report elsewhere. */
function spoken(word: string, path: string): string {
  return /^[./\\]+$/.test(word) ? `the folder ${basename(path) || path}` : word;
}

function two(first: Operand, second: Operand, around: Around): ComparedSides {
  if (first.kind === "revision" || second.kind === "revision") return withRevision(first, second, around.cwd);
  if (first.kind === "folder" && second.kind === "folder")
    return { before: folderSide(first), after: folderSide(second) };
  if (first.kind === "folder" || second.kind === "folder")
    throw new CannotRun("A folder is compared with a folder, a file with a file.");
  return files(first, second, around);
}

/**
 * A shell hands over what a command writes as a pipe of its own (`<(git show ...)`).
 * @throws CannotRun for a file that cannot be read: against nothing all of the other would look new
 */
function putOperand(side: ComparedSide, name: string, path: string, label: string): void {
  const read = path.startsWith("/dev/fd/") ? decodeBytesOf(path, label) : decodeFile(path, label);
  if ("reason" in read) throw new CannotRun(`"${label}" is not compared. ${read.reason}`);
  side.texts.set(name, read.text);
}

function decodeBytesOf(path: string, label: string): ReturnType<typeof decodeFile> {
  const decoded = decode(readFileSync(path), label);
  return "text" in decoded ? decoded : { reason: decoded.finding.message };
}

function folderSide({ path, label }: { path: string; label: string }): ComparedSide {
  const side: ComparedSide = { label, texts: new Map(), notOpened: [] };
  const found = recipesUnder(path);
  for (const file of found.recipes) putFile(side, nameIn(path, file), file);
  for (const { path: file, reason } of found.unreadable) side.notOpened.push({ file: nameIn(path, file), reason });
  return side;
}

function nameIn(folder: string, file: string): string {
  return relative(folder, file).replaceAll("\\", "/");
}

/** Two files stand in one library, that of the first (else of the second), in each other's place. */
function files(first: Operand, second: Operand, { cwd, engine, asOf, of }: Around): ComparedSides {
  const own = of === undefined ? undefined : resolve(cwd, of);
  const paths = [first, second].map((o) => (o.kind === "file" ? o.path : undefined));
  const homes = [...paths.filter((path) => path !== undefined), ...(own === undefined ? [] : [own])]
    .map((path) => ({ path, library: libraryAround(besideOf(path), engine, cwd, asOf) }))
    .filter(({ library }) => library.root !== undefined);
  const at = homes.find(({ path }) => path === own) ?? homes[0];
  const home = at?.library;
  const rest = new Map<string, string>();
  for (const [name, text] of home?.texts ?? []) {
    const path = join(home!.root!, name);
    if (path !== own && !paths.includes(path)) rest.set(name, text);
  }
  const name = at ? nameIn(at.library.root!, at.path) : "recipe.misce";
  const labels = new Map([
    [first, "the old state"],
    [second, "the new state"],
  ]);
  const side = (operand: Operand): ComparedSide => {
    const label = own === undefined || operand.kind === "nothing" ? operand.label : labels.get(operand)!;
    const made: ComparedSide = { label, texts: new Map(rest), notOpened: [...(home?.notOpened ?? [])] };
    if (operand.kind === "file") putOperand(made, name, operand.path, operand.label);
    return made;
  };
  return { before: side(first), after: side(second) };
}

/** A file itself; in the place of one that is no longer there, another of the nearest folder above it that still stands. */
function besideOf(path: string): string {
  if (existsSync(path)) return path;
  let folder = dirname(path);
  while (!existsSync(folder) && dirname(folder) !== folder) folder = dirname(folder);
  return recipesUnder(folder).recipes[0] ?? path;
}

export interface LibraryAround {
  root: string | undefined;
  /** By path relative to the root. */
  texts: Map<string, string>;
  /** Files of it that could not be read, with the reason. */
  notOpened: { file: string; reason: string }[];
}

/** The texts of the library that a file belongs to; the file alone where there is none. */
export function libraryAround(path: string, engine: Engine, cwd: string, asOf: string): LibraryAround {
  const store = new SourceStore(cwd);
  const {
    groups: [group],
    missing,
  } = librariesOf(engine, store, asOf, [path], []);
  const root = group?.root;
  const texts = new Map<string, string>();
  for (const file of group?.opened ?? []) {
    const source = store.read(file);
    if (source.kind === "text") texts.set(nameIn(root ?? dirname(path), file), source.text);
  }
  const notOpened = missing
    .filter((each) => each.path !== path)
    .map((each) => ({ file: nameIn(root ?? dirname(path), each.path), reason: each.reason }));
  return { root, texts, notOpened };
}

export interface LibraryPair {
  before: Map<string, string>;
  after: Map<string, string>;
}

/** Libraries of both sides that belong together: by their root, and where each side has just one, those. */
export function libraryPairs(before: ComparedSide, after: ComparedSide): LibraryPair[] {
  const [was, is] = [byRoot(before.texts), byRoot(after.texts)];
  const [onlyWas, onlyIs] = [[...was.keys()], [...is.keys()]];
  if (onlyWas.length === 1 && onlyIs.length === 1)
    return [{ before: was.get(onlyWas[0]!)!, after: is.get(onlyIs[0]!)! }];
  const roots = [...new Set([...onlyWas, ...onlyIs])].sort();
  const none = new Map<string, string>();
  return roots
    .map((root) => ({ before: was.get(root) ?? none, after: is.get(root) ?? none }))
    .filter((pair) => !areAlike(pair.before, pair.after));
}

function areAlike(a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>): boolean {
  return a.size === b.size && [...a].every(([name, text]) => b.get(name) === text);
}

/** A file belongs to the nearest folder above it that declares a site; without one it stands alone. */
export function byRoot(texts: ReadonlyMap<string, string>): Map<string, Map<string, string>> {
  const roots = new Set<string>();
  for (const [name, text] of texts) if (declaresSite(text)) roots.add(dirname(name));
  const groups = new Map<string, Map<string, string>>();
  for (const [name, text] of texts) {
    let folder = dirname(name);
    while (!roots.has(folder) && folder !== "." && folder !== "/") folder = dirname(folder);
    const key = roots.has(folder) ? `root ${folder}` : `file ${name}`;
    const group = groups.get(key) ?? new Map<string, string>();
    group.set(name, text);
    groups.set(key, group);
  }
  return groups;
}

export function unopened(sides: ComparedSides): Comparison["notOpened"] {
  return (["before", "after"] as const).flatMap((side) => sides[side].notOpened.map((each) => ({ side, ...each })));
}
