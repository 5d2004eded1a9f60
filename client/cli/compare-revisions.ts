/** Sides of a comparison of which at least one is a git revision, or what is staged. */
import { existsSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { CannotRun } from "./cannot-run.ts";
import { type ComparedSide, type ComparedSides, isWithin, type Operand, put } from "./compared-side.ts";
import { commitOf, type GitTree, gitTop, isShallow, mayHaveHeldRecipes, treeAt, workingTree } from "./git-trees.ts";
import { realPath } from "./real-path.ts";
import { recipesUnder } from "./source-files.ts";

export function headOf(cwd: string): { commit: string; label: string } {
  const commit = commitOf(cwd, "HEAD");
  if (!commit) throw new CannotRun("There is no commit here to compare with. Name two files or folders.");
  return { commit, label: "HEAD" };
}

/** A folder beside a revision is that folder in the revision; a path that is no longer there stands for what the revision had. */
export function withRevision(first: Operand, second: Operand, cwd: string): ComparedSides {
  const top = gitTop(cwd);
  const named = [first, second].find((o) => o.kind === "folder" || o.kind === "file" || o.kind === "gone");
  const under = named === undefined ? "" : relative(top, realPath(named.path)).replaceAll("\\", "/");
  if (under.startsWith("..")) throw new CannotRun(`"${named!.label}" lies outside the git working copy.`);
  if (named?.kind === "file" && !/\.misce$/i.test(under))
    throw new CannotRun(
      `"${named.label}" is no recipe file, so there is no meaning to compare. Name a .misce file or a folder.`,
    );
  const tree = (operand: Operand): GitTree => {
    if (operand.kind === "nothing")
      return { label: operand.label, files: new Map(), links: new Map(), unreadable: [], others: new Map() };
    if (operand.kind === "revision") return treeAt(top, operand.commit, operand.label);
    const label = under === "" ? "the working copy" : `${under} in the working copy`;
    return { ...workingTree(top), label: operand.kind === "gone" ? `${label}, deleted` : label };
  };
  const [before, after] = [tree(first), tree(second)];
  const sides = sidesOf(top, before, after, under);
  if (under === "") return sides;
  const names = [...before.files.keys(), ...after.files.keys()];
  if (named?.kind === "gone" && !names.some((name) => isWithin(name, under))) {
    const revisions = [first, second].filter((o) => o.kind === "revision").map((o) => o.label);
    throw new CannotRun(
      `"${named.label}" is no revision that git knows, and no recipe file or folder of recipes here or in ${revisions.join(" and ")}. Check its name.${isShallow(top) ? " This copy is shallow: an earlier revision has to be fetched first." : ""}`,
    );
  }
  // File or folder, it is compared within its library as it stands on each side: all of the tree is opened.
  return { ...sides, only: under };
}

export function sidesOf(top: string, before: GitTree, after: GitTree, under = ""): ComparedSides {
  const sides = { before: sideOf(before), after: sideOf(after) };
  for (const name of new Set([...before.others.keys(), ...after.others.keys()])) {
    const states = [before.others.get(name), after.others.get(name)];
    if (states[0] === states[1] || (under !== "" && !isWithin(name, under))) continue;
    if (!mayHoldRecipes(join(top, name), states)) continue;
    const reason = "It is a repository of its own and has changed. Run misce compare inside it too.";
    sides.after.notOpened.push({ file: name, reason });
  }
  return sides;
}

/** One that was never fetched may hold anything. */
function mayHoldRecipes(folder: string, states: readonly (string | undefined)[]): boolean {
  const isFetched = existsSync(folder) && readdirSync(folder).length > 0;
  return !isFetched || recipesUnder(folder).recipes.length > 0 || mayHaveHeldRecipes(folder, states);
}

function sideOf(tree: GitTree): ComparedSide {
  const side: ComparedSide = { label: tree.label, texts: new Map(), notOpened: [...tree.unreadable] };
  for (const [name, bytes] of tree.files) put(side, name, bytes);
  for (const [name, target] of tree.links) {
    // What it leads to is compared under its own name.
    if (endOf(name, tree) !== undefined) continue;
    const reason = `It is a link to ${target}, which is not among the files compared. Compare that by itself too.`;
    side.notOpened.push({ file: name, reason });
  }
  return side;
}

/** The file to which links lead; undefined where it is none of the tree, or they lead in a circle. */
function endOf(name: string, { files, links }: GitTree): string | undefined {
  const met = new Set<string>();
  let at = name;
  for (let next = links.get(at); next !== undefined && !met.has(next); next = links.get(at)) {
    met.add(next);
    at = next;
  }
  return files.has(at) ? at : undefined;
}
