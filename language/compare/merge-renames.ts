/**
 * A declaration that one side gave another name and nothing else is the same declaration: what the other side changed in it meanwhile
 * is merged into it. One that was renamed and changed as well may just as well be another one: a conflict, which holds both.
 */
import { isSame } from "./merge-one-part.ts";
import type { BlockPart, MergeEntry, MergePart } from "./merge-parts.ts";
import { grouped } from "./pair-statements.ts";

export interface Sides {
  base: MergePart[];
  ours: MergePart[];
  theirs: MergePart[];
}

/** What to call a declaration: its new name, by its former one. */
type NewHeads = Map<string, Pick<BlockPart, "identity" | "key">>;

/** A declaration to which the two sides gave different names, or which one of them renamed and the other took out or changed. */
export interface TwiceRenamed {
  former: BlockPart;
  ours: BlockPart | undefined;
  theirs: BlockPart | undefined;
}

/**
 * Both sides under the names of the common state, and the names that the merged text is to have. What was given two names is taken
 * out of all three states: with both in the text, one declaration would have become two.
 */
export function underFormerNames({ base, ours, theirs }: Sides): {
  sides: Sides;
  newHeads: NewHeads;
  twice: TwiceRenamed[];
} {
  const renamed = { ours: renamedIn(base, ours), theirs: renamedIn(base, theirs) };
  const newHeads: NewHeads = new Map();
  const twice: TwiceRenamed[] = [];
  const [inOurs, inTheirs] = [identitiesOf(ours), identitiesOf(theirs)];
  for (const former of blocks(base)) {
    const [mine, its] = [renamed.ours.get(former), renamed.theirs.get(former)];
    const isOneName = mine && its && mine.identity === its.identity;
    if (!isOneName && !inOurs.has(former.identity) && !inTheirs.has(former.identity)) {
      const [left, right] = [mine ?? likest(former, base, ours), its ?? likest(former, base, theirs)];
      // With one new name on both sides it is one new declaration on both, and merged as that.
      if ((left || right) && left?.identity !== right?.identity) twice.push({ former, ours: left, theirs: right });
      for (const side of [renamed.ours, renamed.theirs]) side.delete(former);
      continue;
    }
    const chosen = mine ?? its;
    if (!chosen) {
      // Renamed and changed here, changed there: whichever side is taken, one declaration must be left.
      const isGoneHere = !inOurs.has(former.identity);
      const kept = blocks(isGoneHere ? theirs : ours).find((p) => p.identity === former.identity);
      if (!kept || isSame(former, kept) || inOurs.has(former.identity) === inTheirs.has(former.identity)) continue;
      const other = likest(former, base, isGoneHere ? ours : theirs);
      if (other) twice.push({ former, ours: isGoneHere ? other : kept, theirs: isGoneHere ? kept : other });
      continue;
    }
    // A name that the other side gave to something else stays with that.
    if (isOneName || hasFormer(mine ? theirs : ours, former, chosen))
      newHeads.set(former.identity, { identity: chosen.identity, key: chosen.key });
    else for (const side of [renamed.ours, renamed.theirs]) side.delete(former);
  }
  const set = new Set<MergePart | undefined>(twice.flatMap((each) => [each.former, each.ours, each.theirs]));
  const rest = (parts: readonly MergePart[]) => parts.filter((part) => !set.has(part));
  const sides = {
    base: rest(base),
    ours: formerly(rest(ours), renamed.ours),
    theirs: formerly(rest(theirs), renamed.theirs),
  };
  return { sides, newHeads, twice };
}

/** Each of them stands as a conflict between its two names, before everything else, where nobody overlooks it. */
export function withTwiceRenamed(merged: readonly MergeEntry[], twice: readonly TwiceRenamed[]): MergeEntry[] {
  const conflicts = twice.map(
    ({ former, ours, theirs }): MergeEntry => ({
      conflict: { base: [former], ours: ours ? [ours] : [], theirs: theirs ? [theirs] : [] },
    }),
  );
  return [...conflicts, ...merged];
}

export function underNewNames(merged: readonly MergeEntry[], newHeads: NewHeads): MergeEntry[] {
  return merged.map((entry) => {
    const head = "conflict" in entry || entry.kind === "line" ? undefined : newHeads.get(entry.identity);
    return head ? { ...entry, ...head } : entry;
  });
}

function blocks(parts: readonly MergePart[]): BlockPart[] {
  return parts.filter((p): p is BlockPart => p.kind === "block");
}

function hasFormer(parts: readonly MergePart[], former: BlockPart, now: BlockPart): boolean {
  const names = blocks(parts).map((p) => p.identity);
  return names.includes(former.identity) && !names.includes(now.identity);
}

/** By the part of the common state: the only new one of the same kind that says the same. */
function renamedIn(base: readonly MergePart[], side: readonly MergePart[]): Map<BlockPart, BlockPart> {
  const names = (parts: readonly MergePart[]) => new Set(blocks(parts).map((p) => p.identity));
  const [were, are] = [names(base), names(side)];
  const gone = blocks(base).filter((p) => !are.has(p.identity));
  const come = blocks(side).filter((p) => !were.has(p.identity));
  const found = new Map<BlockPart, BlockPart>();
  for (const former of gone) {
    const says = (other: BlockPart) => isSame(former, { ...other, key: former.key });
    const isKind = (other: BlockPart) => wordOf(other) === wordOf(former);
    const [twin, second] = come.filter((other) => isKind(other) && says(other));
    const [, rival] = gone.filter((other) => twin && isSame(other, { ...twin, key: other.key }));
    if (twin && !second && !rival) found.set(former, twin);
  }
  return found;
}

/**
 * The new declaration of the same kind of which the greatest part, three statements in four at least, stood in the former one; none
 * where it is as like to another one that is gone.
 */
function likest(former: BlockPart, base: readonly MergePart[], side: readonly MergePart[]): BlockPart | undefined {
  const [were, are] = [identitiesOf(base), identitiesOf(side)];
  const isNew = (other: BlockPart) => !were.has(other.identity) && wordOf(other) === wordOf(former);
  let best: BlockPart | undefined;
  let most = 0.75;
  for (const other of blocks(side).filter(isNew)) {
    const share = shareOf(former, other);
    if (share < most || (best && share === most)) continue;
    [best, most] = [other, share];
  }
  const isRival = (p: BlockPart) => p !== former && !are.has(p.identity) && best && shareOf(p, best) >= most;
  return blocks(base).some(isRival) ? undefined : best;
}

function shareOf(one: BlockPart, other: BlockPart): number {
  const [own, its] = [keysIn(one), keysIn(other)];
  const spare = grouped(its, (key) => key);
  return own.filter((key) => spare.get(key)?.pop() !== undefined).length / Math.max(own.length, its.length, 1);
}

function keysIn(part: MergePart): string[] {
  return part.kind === "line" ? [part.key] : part.body.flatMap(keysIn);
}

function identitiesOf(parts: readonly MergePart[]): Set<string> {
  return new Set(blocks(parts).map((p) => p.identity));
}

function wordOf({ identity }: BlockPart): string {
  return identity.split(" ")[0]!;
}

function formerly(parts: readonly MergePart[], renamed: ReadonlyMap<BlockPart, BlockPart>): MergePart[] {
  const former = new Map([...renamed].map(([was, is]): [MergePart, BlockPart] => [is, was]));
  return parts.map((part) => {
    const was = former.get(part);
    return was ? { ...part, identity: was.identity, key: was.key } : part;
  });
}
