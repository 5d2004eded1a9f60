/**
 * A declaration that one side gave another name and nothing else is the same declaration: what the other side changed in it meanwhile
 * is merged into it. One that was renamed and changed as well may just as well be another one, and stays a conflict.
 */
import { isSame } from "./merge-one-part.ts";
import type { BlockPart, MergeEntry, MergePart } from "./merge-parts.ts";

export interface Sides {
  base: MergePart[];
  ours: MergePart[];
  theirs: MergePart[];
}

/** What to call a declaration: its new name, by its former one. */
type NewHeads = Map<string, Pick<BlockPart, "identity" | "key">>;

/** Both sides under the names of the common state, and the names that the merged text is to have. */
export function underFormerNames({ base, ours, theirs }: Sides): { sides: Sides; newHeads: NewHeads } {
  const renamed = { ours: renamedIn(base, ours), theirs: renamedIn(base, theirs) };
  const newHeads: NewHeads = new Map();
  for (const former of blocks(base)) {
    const [mine, its] = [renamed.ours.get(former), renamed.theirs.get(former)];
    const chosen = mine ?? its;
    if (!chosen) continue;
    // Two new names are two meanings; a name that the other side gave to something else stays with that.
    const isOneName = mine && its ? mine.identity === its.identity : hasFormer(mine ? theirs : ours, former, chosen);
    if (isOneName) newHeads.set(former.identity, { identity: chosen.identity, key: chosen.key });
    else for (const side of [renamed.ours, renamed.theirs]) side.delete(former);
  }
  const sides = { base, ours: formerly(ours, renamed.ours), theirs: formerly(theirs, renamed.theirs) };
  return { sides, newHeads };
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
