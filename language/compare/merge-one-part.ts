/** What a merge asks of single parts: whether they say the same, whose layout counts, and how a conflict is noted. */

import type { FactMeaning } from "./meaning.ts";
import { withComments } from "./merge-comments.ts";
import type { BlockPart, LinePart, MergeEntry, MergePart } from "./merge-parts.ts";
import type { MergeConflict } from "./merge-texts.ts";
import { type Pairs, pairFacts } from "./pair-statements.ts";

export function conflictAt(
  where: string,
  base: MergePart[],
  ours: MergePart[],
  theirs: MergePart[],
  conflicts: MergeConflict[],
): MergeEntry {
  const text = (parts: readonly MergePart[]) => parts.map(printed).join("").trim();
  conflicts.push({ where, base: text(base), ours: text(ours), theirs: text(theirs) });
  return { conflict: { base, ours, theirs } };
}

/** The text of a part without what stands above it. */
function printed(part: MergePart): string {
  if (part.kind === "line") return part.text;
  return part.head + part.body.map((p) => p.lead + printed(p)).join("") + part.tail;
}

/** Says the same, everything inside included. */
export function isSame(a: MergePart, b: MergePart): boolean {
  if (a.kind !== b.kind || a.key !== b.key) return false;
  if (a.kind === "line" || b.kind === "line") return true;
  if (a.body.length !== b.body.length) return false;
  if (a.isOrdered) return a.body.every((part, k) => isSame(part, b.body[k]!));
  const { same, changed, added, removed } = pairParts(a.body, b.body);
  return changed.length + added.length + removed.length === 0 && same.every(([x, y]) => isSame(x, y));
}

export function isWholly(a: MergePart, b: MergePart): boolean {
  return isSame(a, b) && printed(a) === printed(b);
}

/** Same meaning on both sides: the text of whoever changed it. */
export function layout(base: MergePart, ours: MergePart, theirs: MergePart): MergeEntry {
  const [chosen, other] = printed(base) === printed(ours) ? [theirs, ours] : [ours, theirs];
  return withComments({ ...chosen, lead: lead(base, ours, theirs) }, base, other);
}

/** Comments above: whoever changed them; where both did, both stand. */
export function lead(base: MergePart, ours: MergePart, theirs: MergePart): string {
  if (ours.lead === theirs.lead || base.lead === theirs.lead) return ours.lead;
  if (base.lead === ours.lead) return theirs.lead;
  const known = new Set(ours.lead.split("\n").map((l) => l.trim()));
  const more = theirs.lead.split("\n").filter((l) => l.trim() !== "" && !known.has(l.trim()));
  return ours.lead + more.map((l) => `${l}\n`).join("");
}

export function pairParts(before: readonly MergePart[], after: readonly MergePart[]): Pairs<MergePart> {
  const blocks = (parts: readonly MergePart[]) => parts.filter((p): p is BlockPart => p.kind === "block");
  const lines = (parts: readonly MergePart[]) => parts.filter((p): p is LinePart => p.kind === "line");
  const pairs: Pairs<MergePart> = { same: [], changed: [], removed: [], added: [] };
  const left = [...blocks(after)];
  for (const block of blocks(before)) {
    const at = left.findIndex((b) => b.identity === block.identity);
    if (at < 0) pairs.removed.push(block);
    else pairs.same.push([block, left.splice(at, 1)[0]!]);
  }
  pairs.added.push(...left);
  const kind = lines(before)[0]?.declarationKind ?? lines(after)[0]?.declarationKind ?? "";
  const facts = (parts: readonly LinePart[]) => new Map(parts.map((part) => [factOf(part), part]));
  const [was, is] = [facts(lines(before)), facts(lines(after))];
  const paired = pairFacts(kind, [...was.keys()], [...is.keys()]);
  const back = ([a, b]: [FactMeaning, FactMeaning]): [MergePart, MergePart] => [was.get(a)!, is.get(b)!];
  pairs.same.push(...paired.same.map(back));
  pairs.changed.push(...paired.changed.map(back));
  pairs.removed.push(...paired.removed.map((f) => was.get(f)!));
  pairs.added.push(...paired.added.map((f) => is.get(f)!));
  return pairs;
}

function factOf({ statement, key, word, block, text }: LinePart): FactMeaning {
  const own = statement ?? { value: null, isRead: false, start: 0, end: 0 };
  return { ...own, key, word, block, shown: text.trim() };
}
