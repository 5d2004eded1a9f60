/** The merge itself: parts without order by what they are, steps by their order. See merge-texts.ts. */
import { commentRow, indentOf, lostComments, withComments } from "./merge-comments.ts";
import { conflictAt, isSame, isWholly, layout, lead, pairParts } from "./merge-one-part.ts";
import type { BlockPart, MergedBlock, MergeEntry, MergePart } from "./merge-parts.ts";
import { mergeOrdered } from "./merge-steps.ts";
import type { MergeConflict } from "./merge-texts.ts";

export interface MergePlace {
  where: string;
  isOrdered: boolean;
}

export function mergeEntries(
  base: readonly MergePart[],
  ours: readonly MergePart[],
  theirs: readonly MergePart[],
  place: MergePlace,
  conflicts: MergeConflict[],
): MergeEntry[] {
  if (place.isOrdered) return mergeOrdered(base, ours, theirs, place, conflicts);
  return new Unordered(base, ours, theirs, place, conflicts).merged();
}

/** What became of a part of the common state on one side. */
type Twin = MergePart | undefined;

class Unordered {
  private readonly fate = { ours: new Map<MergePart, Twin>(), theirs: new Map<MergePart, Twin>() };
  private readonly added: Record<"ours" | "theirs", MergePart[]>;

  constructor(
    private readonly base: readonly MergePart[],
    private readonly ours: readonly MergePart[],
    private readonly theirs: readonly MergePart[],
    private readonly place: MergePlace,
    private readonly conflicts: MergeConflict[],
  ) {
    this.added = { ours: this.match("ours", ours), theirs: this.match("theirs", theirs) };
  }

  /** @returns what is new on the side */
  private match(side: "ours" | "theirs", parts: readonly MergePart[]): MergePart[] {
    const { same, changed, added } = pairParts(this.base, parts);
    for (const part of this.base) this.fate[side].set(part, undefined);
    for (const [was, is] of [...same, ...changed]) this.fate[side].set(was, is);
    return added;
  }

  /** In the order of our side; what is new on the other side stands behind the part that it followed there. */
  merged(): MergeEntry[] {
    const placed = new Map<MergePart, MergeEntry[]>();
    const origin = new Map<MergePart, MergePart>();
    for (const [part, twin] of this.fate.ours) if (twin) origin.set(twin, part);
    const twinsOfAdded = this.addedTwice();
    for (const part of this.ours) {
      const from = origin.get(part);
      if (from) placed.set(part, this.kept(from, part));
      else placed.set(part, this.newPart(part, twinsOfAdded.get(part)));
    }
    const result: MergeEntry[] = this.ours.flatMap((part) => placed.get(part)!);
    this.insertTheirs(result, new Set(twinsOfAdded.values()));
    return this.insertLost(result);
  }

  /** A part that ours still has. */
  private kept(base: MergePart, ours: MergePart): MergeEntry[] {
    const theirs = this.fate.theirs.get(base);
    if (!theirs) {
      if (isSame(base, ours)) return this.orphans(base, ours);
      return [this.conflict([base], [ours], [])];
    }
    return this.three(base, ours, theirs);
  }

  private three(base: MergePart, ours: MergePart, theirs: MergePart): MergeEntry[] {
    if (ours.kind === "block" && theirs.kind === "block" && base.kind === "block") {
      return [this.block(base, ours, theirs)];
    }
    if (isSame(ours, theirs)) return [layout(base, ours, theirs)];
    if (isSame(base, theirs)) return [withComments({ ...ours, lead: lead(base, ours, theirs) }, base, theirs)];
    if (isSame(base, ours)) return [withComments({ ...theirs, lead: lead(base, ours, theirs) }, base, ours)];
    return [this.conflict([base], [ours], [theirs])];
  }

  private orphans(base: MergePart, dropped: MergePart): MergeEntry[] {
    const lost = lostComments([base], [dropped], []);
    return lost.length === 0 ? [] : [commentRow(lost, indentOf(dropped))];
  }

  private block(base: BlockPart, ours: BlockPart, theirs: BlockPart): MergedBlock {
    const where = this.place.where === "" ? ours.identity : `${this.place.where}, ${ours.identity}`;
    const inside = { where, isOrdered: ours.isOrdered };
    const bare = (part: BlockPart): BlockPart => ({ ...part, lead: "", body: [] });
    const [head, tail] = [
      base.head === ours.head ? theirs.head : ours.head,
      base.tail === ours.tail ? theirs.tail : ours.tail,
    ];
    const own = withComments({ ...bare(ours), lead: lead(base, ours, theirs), head, tail }, bare(base), bare(theirs));
    return {
      ...withComments(own, bare(base), bare(ours)),
      body: mergeEntries(base.body, ours.body, theirs.body, inside, this.conflicts),
    };
  }

  /** New on both sides under one identity: the same once, another meaning a conflict. */
  private addedTwice(): Map<MergePart, MergePart> {
    const twins = new Map<MergePart, MergePart>();
    const { same, changed } = pairParts(this.added.ours, this.added.theirs);
    for (const [ours, theirs] of [...same, ...changed]) twins.set(ours, theirs);
    return twins;
  }

  private newPart(ours: MergePart, theirs: MergePart | undefined): MergeEntry[] {
    if (!theirs || isWholly(ours, theirs)) return [ours];
    if (ours.kind === "line" && isSame(ours, theirs)) return [withComments(ours, ours, theirs)];
    if (ours.kind === "block" && theirs.kind === "block") {
      const nothing: BlockPart = { ...ours, body: [], head: "", tail: "" };
      return [this.block(nothing, ours, theirs)];
    }
    return [this.conflict([], [ours], [theirs])];
  }

  private insertTheirs(result: MergeEntry[], taken: ReadonlySet<MergePart>): void {
    for (const part of this.added.theirs) {
      if (taken.has(part)) continue;
      const before = this.theirs[this.theirs.indexOf(part) - 1];
      let at = result.findIndex((e) => "identity" in e && e.identity === "end");
      if (at < 0) at = result.length;
      if (before) {
        const anchor = result.findLastIndex(
          (e) => "identity" in e && e.kind === before.kind && (e.key === before.key || e.identity === before.identity),
        );
        if (anchor >= 0) at = anchor + 1;
      } else at = 0;
      result.splice(at, 0, part as MergeEntry);
    }
  }

  /** Taken out by us and changed by them: nobody's text would show it otherwise. */
  private insertLost(result: MergeEntry[]): MergeEntry[] {
    for (const part of this.base) {
      const [ours, theirs] = [this.fate.ours.get(part), this.fate.theirs.get(part)];
      if (ours || !theirs) continue;
      if (isSame(part, theirs)) result.push(...this.orphans(part, theirs));
      else result.push(this.conflict([part], [], [theirs]));
    }
    // The comments behind the last declaration stay behind it.
    const end = result.findIndex((e) => "identity" in e && e.identity === "end");
    if (end >= 0) result.push(...result.splice(end, 1));
    return result;
  }

  private conflict(base: MergePart[], ours: MergePart[], theirs: MergePart[]): MergeEntry {
    return conflictAt(this.place.where, base, ours, theirs, this.conflicts);
  }
}
