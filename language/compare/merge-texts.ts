/**
 * Merges two changed states of a file with the state that both came from, by what the declarations and facts are and not by where
 * their lines stand. Two people may change two facts of one recipe, or add two rows to one list, and nothing collides; a conflict is
 * only where both gave one fact another meaning, or moved the same stretch of steps differently.
 *
 * Invariants: what the merged text says is worked out first, fact by fact, and the text is compared with it afterwards; a text that
 * says anything else is not given out. Where a side cannot be read as recipes, nothing is merged here and that is said.
 */
import { readChunk } from "../model/read-chunk.ts";
import { splitChunks } from "../syntax/chunks.ts";
import { canonicalJson } from "./canonical.ts";
import { meaningOf } from "./meaning.ts";
import { mergeEntries } from "./merge-entries.ts";
import { type MergeEntry, type MergePart, partsOf } from "./merge-parts.ts";
import { underFormerNames, underNewNames, withTwiceRenamed } from "./merge-renames.ts";
import { withOwnSources } from "./merge-sources.ts";
import { grouped } from "./pair-statements.ts";

export interface MergeConflict {
  /** `recipe magnesium-4g, order`. */
  where: string;
  /** Lines as written; empty where it was taken out on that side. */
  base: string;
  ours: string;
  theirs: string;
}

export interface Merged {
  text: string;
  conflicts: MergeConflict[];
}

/** Why the texts cannot be merged by meaning. */
export interface NotMergeable {
  reason: string;
}

export function isNotMergeable(result: Merged | NotMergeable): result is NotMergeable {
  return "reason" in result;
}

export function mergeTexts(base: string, ours: string, theirs: string): Merged | NotMergeable {
  if (ours === theirs || base === theirs) return { text: ours, conflicts: [] };
  if (base === ours) return { text: theirs, conflicts: [] };
  const newline = /\r\n|\r|\n/.exec(ours)?.[0] ?? "\n";
  const sides = { base: unixLines(base), ours: unixLines(ours), theirs: unixLines(theirs) };
  for (const side of ["base", "ours", "theirs"] as const) {
    const fault = unreadable(sides[side]);
    if (fault)
      return { reason: `${sides[side] === "" ? "The" : "A line of the"} ${sideWords[side]} cannot be read: ${fault}` };
  }
  const conflicts: MergeConflict[] = [];
  const {
    sides: parts,
    newHeads,
    twice,
  } = underFormerNames({
    base: partsOf(sides.base),
    ours: partsOf(sides.ours),
    theirs: partsOf(sides.theirs),
  });
  const place = { where: "", isOrdered: false };
  const within = underNewNames(mergeEntries(parts.base, parts.ours, parts.theirs, place, conflicts), newHeads);
  const merged = withOwnSources(withTwiceRenamed(within, twice));
  for (const each of twice) {
    const [base, ours, theirs] = [each.former, each.ours, each.theirs].map((part) =>
      part ? print([part]).trim() : "",
    ) as [string, string, string];
    conflicts.push({ where: each.former.identity, base, ours, theirs });
  }
  const text = print(merged);
  for (const side of conflicts.length === 0 ? (["ours"] as const) : (["ours", "theirs"] as const)) {
    const whole = settled(merged, side);
    const fault = differsFromPlan(print(whole), whole);
    if (fault) return { reason: `The merged text would not say what was worked out: ${fault}.` };
  }
  return { text: text.replaceAll("\n", newline), conflicts };
}

const sideWords = { base: "common state", ours: "own side", theirs: "other side" };

function unixLines(text: string): string {
  return text.replace(/\r\n?/g, "\n");
}

/** The first thing in a text that is no sound statement. */
function unreadable(text: string): string | undefined {
  for (const { text: chunk } of splitChunks(text)) {
    const reading = readChunk({ text: chunk });
    const [problem] = reading.tree.problems;
    if (problem) return quoted(chunk, problem);
    const stray = reading.problems.find((p) => unsound.has(p.name));
    if (stray) return quoted(chunk, stray);
  }
  const names = grouped(declarationKeys(text), (k) => k);
  const twice = [...names].find(([key, all]) => all.length > 1 && !key.startsWith("lots "));
  return twice ? `${twice[0]} is declared ${twice[1].length} times` : undefined;
}

const unsound = new Set<string>([
  "unknown-declaration",
  "declaration-without-name",
  "line-outside-declaration",
  "block-stated-twice",
  "unknown-block",
]);

function quoted(chunk: string, { start, end }: { start: number; end: number }): string {
  const from = chunk.lastIndexOf("\n", start - 1) + 1;
  const line = chunk.slice(from, Math.max(end, from)).split("\n")[0]!.trim();
  return line === "" ? "a brace does not fit" : `"${line.slice(0, 80)}"`;
}

function declarationKeys(text: string): string[] {
  return splitChunks(text).flatMap(({ text: chunk }) =>
    readChunk({ text: chunk }).declarations.map((d) => `${d.kind} ${d.name.name}`),
  );
}

function print(entries: readonly MergeEntry[]): string {
  return entries.map(printEntry).join("");
}

function printEntry(entry: MergeEntry): string {
  if ("conflict" in entry) {
    const { ours, base, theirs } = entry.conflict;
    return `<<<<<<< ours\n${print(ours)}||||||| base\n${print(base)}=======\n${print(theirs)}>>>>>>> theirs\n`;
  }
  return entry.kind === "line"
    ? entry.lead + entry.text
    : `${entry.lead}${entry.head}${print(entry.body)}${entry.tail}`;
}

/** Every conflict decided for one side. */
function settled(entries: readonly MergeEntry[], side: "ours" | "theirs"): MergeEntry[] {
  return entries.flatMap((entry): MergeEntry[] => {
    if ("conflict" in entry) return entry.conflict[side];
    return [entry.kind === "block" ? { ...entry, body: settled(entry.body, side) } : entry];
  });
}

/** The statements that were worked out, against those that the printed text is read as. */
function differsFromPlan(text: string, merged: readonly MergeEntry[]): string | undefined {
  const fault = unreadable(text);
  if (fault) return fault;
  const planned = merged.flatMap((part) => statementsOf(part as MergePart)).sort();
  const read = partsOf(text)
    .flatMap((part) => statementsOf(part))
    .sort();
  const at = planned.findIndex((key, k) => key !== read[k]);
  if (at < 0 && planned.length === read.length) return undefined;
  const [path] = JSON.parse(planned[at] ?? read[planned.length]!) as [string];
  return `look at ${path.slice(1).replaceAll("/", ", ")}`;
}

/** Every statement with its place, and each step with its rank among the steps. */
export function statementsOf(part: MergePart, path = ""): string[] {
  if (part.kind === "line") return part.text === "" ? [] : [canonicalJson([path, part.key])];
  const inside = `${path}/${part.identity}`;
  const own = [canonicalJson([inside, part.key])];
  const said = part.body.filter((each) => each.kind === "block" || each.text !== "");
  const nested = said.flatMap((each, k) => statementsOf(each, part.isOrdered ? `${inside}#${k}` : inside));
  return [...own, ...nested];
}

/** Everything that a text says, for comparing texts: statements of all its declarations, lots included. */
export function meaningKeys(text: string): string[] {
  return splitChunks(text)
    .flatMap(({ text: chunk }) => readChunk({ text: chunk }).declarations)
    .flatMap((d) => {
      const { kind, name, facts, steps } = meaningOf(d);
      return [...facts.map((f) => f.key), ...steps.map((s, k) => `${k} ${s.key}`)].map(
        (key) => `${kind} ${name} ${key}`,
      );
    })
    .sort();
}
