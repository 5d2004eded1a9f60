/** The merge of steps, whose order is what they mean. See merge-texts.ts. */
import { commentRow, indentOf, lostComments } from "./merge-comments.ts";
import type { MergePlace } from "./merge-entries.ts";
import { conflictAt, layout } from "./merge-one-part.ts";
import type { MergeEntry, MergePart } from "./merge-parts.ts";
import type { MergeConflict } from "./merge-texts.ts";
import { grouped, longestCommon } from "./pair-statements.ts";

/** Stretches between steps that all three have: changed on one side, that side's; on both, the same or a conflict. */
export function mergeOrdered(
  base: readonly MergePart[],
  ours: readonly MergePart[],
  theirs: readonly MergePart[],
  { where }: MergePlace,
  conflicts: MergeConflict[],
): MergeEntry[] {
  const keyed = (parts: readonly MergePart[]) => parts.map((p) => ({ key: wholeKey(p) })) as never[];
  const inOurs = new Map(longestCommon(keyed(base), keyed(ours)));
  const inTheirs = new Map(longestCommon(keyed(base), keyed(theirs)));
  const result: MergeEntry[] = [];
  const before = conflicts.length;
  let [i, j, k] = [0, 0, 0];
  for (let n = 0; n <= base.length; n++) {
    const [a, b] = n < base.length ? [inOurs.get(n), inTheirs.get(n)] : [ours.length, theirs.length];
    if (a === undefined || b === undefined) continue;
    result.push(...stretch(base.slice(i, n), ours.slice(j, a), theirs.slice(k, b), where, conflicts));
    if (n < base.length) result.push(layout(base[n]!, ours[a]!, theirs[b]!));
    [i, j, k] = [n + 1, a + 1, b + 1];
  }
  if (isAsWanted(base, ours, theirs, result)) return result;
  conflicts.length = before;
  return [conflictAt(where, [...base], [...ours], [...theirs], conflicts)];
}

/**
 * A step moved by one and taken out by the other, or moved by both to two places, collides nowhere and yet comes out as nobody meant:
 * each step must stand as often as the side that changed it says. So it must when every conflict is settled for one side: half of a
 * move may stand in a conflict, and whoever settles that for the other side would lose the step.
 */
function isAsWanted(
  base: readonly MergePart[],
  ours: readonly MergePart[],
  theirs: readonly MergePart[],
  result: readonly MergeEntry[],
): boolean {
  const settled = (side: "ours" | "theirs") =>
    result.flatMap((e): readonly MergeEntry[] => ("conflict" in e ? e.conflict[side] : [e])) as MergePart[];
  if (result.every((e) => !("conflict" in e))) return isEachAsOften(base, ours, theirs, settled("ours"));
  return (
    isEachAsOften(base, ours, base, settled("ours"), theirs) &&
    isEachAsOften(base, base, theirs, settled("theirs"), ours)
  );
}

/** @param other a side that lost every conflict: a step that it changed may come out either way */
function isEachAsOften(
  base: readonly MergePart[],
  ours: readonly MergePart[],
  theirs: readonly MergePart[],
  result: readonly MergePart[],
  other: readonly MergePart[] = base,
): boolean {
  const [was, mine, yours, is] = [base, ours, theirs, result].map((list) => grouped(list, wholeKey));
  const lost = grouped(other, wholeKey);
  for (const key of new Set([...was!.keys(), ...mine!.keys(), ...yours!.keys(), ...is!.keys()])) {
    const [w, m, y, n] = [was, mine, yours, is].map((groups) => groups!.get(key)?.length ?? 0) as [
      number,
      number,
      number,
      number,
    ];
    if ((lost.get(key)?.length ?? 0) !== w) continue;
    if (m === w && n !== y) return false;
    if (y === w && n !== m) return false;
    if (m === y && n !== m) return false;
  }
  return true;
}

function stretch(
  base: MergePart[],
  ours: MergePart[],
  theirs: MergePart[],
  where: string,
  conflicts: MergeConflict[],
): MergeEntry[] {
  const key = (parts: readonly MergePart[]) => parts.map(wholeKey).join("\n");
  const [was, mine, yours] = [key(base), key(ours), key(theirs)];
  const chosen = (list: readonly MergePart[], other: readonly MergePart[]): MergeEntry[] => {
    const lost = lostComments(base, other, list);
    return lost.length === 0 ? [...list] : [commentRow(lost, indentOf((list[0] ?? other[0])!)), ...list];
  };
  if (mine === yours || was === yours) return chosen(ours, theirs);
  if (was === mine) return chosen(theirs, ours);
  return [conflictAt(where, base, ours, theirs, conflicts)];
}

function wholeKey(part: MergePart): string {
  if (part.kind === "line") return part.key;
  return `${part.key}{${part.body.map(wholeKey).join(",")}}`;
}
