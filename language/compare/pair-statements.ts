/**
 * Which statement of one side is which of the other. Facts have no order: they pair by what they say, then by their word and by what
 * they speak of. Steps have an order: they pair by the longest row of steps that stayed, then by verb within each gap.
 *
 * Invariant: every statement of either side is in the answer exactly once.
 */
import { factTables } from "../model/read-chunk.ts";
import { canonicalJson, type Plain } from "./canonical.ts";
import type { FactMeaning, Statement, StepMeaning } from "./meaning.ts";

export interface Pairs<S> {
  same: [S, S][];
  changed: [S, S][];
  removed: S[];
  added: S[];
}

export interface StepPairs extends Pairs<StepMeaning> {
  /** Say the same, at another place in the order. */
  moved: [StepMeaning, StepMeaning][];
}

/** @param reworded whether a note that says about the same is the same note: told so to a reader, but nothing to merge by */
export function pairFacts(
  kind: string,
  before: readonly FactMeaning[],
  after: readonly FactMeaning[],
  reworded?: "paired",
): Pairs<FactMeaning> {
  const pairs: Pairs<FactMeaning> = { same: [], changed: [], removed: [], added: [] };
  const spare = grouped(after, (f) => f.key);
  const left = before.filter((fact) => {
    const twin = spare.get(fact.key)?.shift();
    if (twin) pairs.same.push([fact, twin]);
    return !twin;
  });
  const open = grouped([...spare.values()].flat(), placeKey);
  for (const [place, facts] of grouped(left, placeKey)) {
    const others = open.get(place) ?? [];
    const take = (fact: FactMeaning, twin: FactMeaning | undefined): boolean => {
      if (!twin) return false;
      others.splice(others.indexOf(twin), 1);
      pairs.changed.push([fact, twin]);
      return true;
    };
    const alone = facts.filter((fact) => !take(fact, likest(fact, others, mayStandMoreThanOnce(kind, fact))));
    // `concentration 37 mg/mL` and `concentration 3.7 mg/mL` share no slot, and speak of the same thing.
    const speaksOf = (fact: FactMeaning) => canonicalJson(namesIn(fact.value));
    pairs.removed.push(
      ...alone.filter((fact) => {
        const twin =
          others.find((other) => speaksOf(other) === speaksOf(fact)) ?? (reworded && likestText(fact, others));
        return !take(fact, twin);
      }),
    );
  }
  const used = new Set(pairs.changed.map(([, fact]) => fact).concat(pairs.same.map(([, fact]) => fact)));
  pairs.added.push(...after.filter((f) => !used.has(f)));
  return pairs;
}

function placeKey({ block, word }: FactMeaning): string {
  return canonicalJson([block, word]);
}

function mayStandMoreThanOnce(kind: string, { block, word }: FactMeaning): boolean {
  if (word === "deviation") return true;
  const [blockWord = ""] = block.split(" ");
  return factTables[block === "" ? kind : blockWord]?.[word]?.many ?? false;
}

/** Of facts that may stand more than once, only one that speaks of the same thing is the same fact with another value. */
function likest(fact: FactMeaning, others: readonly FactMeaning[], isOneOfMany: boolean): FactMeaning | undefined {
  let best: FactMeaning | undefined;
  let most = isOneOfMany ? 0 : -1;
  for (const other of others) {
    const alike = alikeness(fact.value, other.value);
    if (alike > most) [best, most] = [other, alike];
  }
  return best;
}

/** A note or a line of the label that says about the same: at least half the words of the shorter one stand in both. */
function likestText(fact: FactMeaning, others: readonly FactMeaning[]): FactMeaning | undefined {
  const own = wordsIn(fact);
  let best: FactMeaning | undefined;
  let most = 0.5;
  for (const other of others) {
    const its = wordsIn(other);
    const share = [...own].filter((word) => its.has(word)).length / Math.max(1, Math.min(own.size, its.size));
    if (share < most || (best && share === most)) continue;
    [best, most] = [other, share];
  }
  return best;
}

function wordsIn({ value }: FactMeaning): Set<string> {
  const { text } = ((value as { text?: Plain } | null)?.text ?? {}) as { text?: string };
  return new Set(text?.toLowerCase().match(/[\p{L}\p{N}]+/gu));
}

/** A measure in it by its kind alone, everything else as it is: facts for which this is equal differ by a figure. */
function namesIn(value: Plain): Plain {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(namesIn);
  const slots = value as { [key: string]: Plain };
  if ("quantity" in slots || "number" in slots) return "a figure";
  return Object.fromEntries(Object.entries(slots).map(([key, each]) => [key, namesIn(each)]));
}

/** Slots that say the same; a name counts double, because it says what the fact speaks of. */
function alikeness(a: Plain, b: Plain): number {
  const [one, other] = [a, b].map((v) => (typeof v === "object" && v !== null && !Array.isArray(v) ? v : {})) as [
    { [key: string]: Plain },
    { [key: string]: Plain },
  ];
  let alike = 0;
  for (const [key, value] of Object.entries(one)) {
    const twin = other[key];
    if (twin === undefined || canonicalJson(twin) !== canonicalJson(value)) continue;
    alike += typeof value === "object" && value !== null && "name" in value ? 2 : 1;
  }
  return alike;
}

export function pairSteps(before: readonly StepMeaning[], after: readonly StepMeaning[]): StepPairs {
  const kept = longestCommon(before, after);
  const pairs: StepPairs = {
    same: kept.map(([i, j]) => [before[i]!, after[j]!]),
    changed: [],
    moved: [],
    removed: [],
    added: [],
  };
  const stays = [new Set(kept.map(([i]) => i)), new Set(kept.map(([, j]) => j))] as const;
  const isLeft = (side: 0 | 1) => (_: StepMeaning, i: number) => !stays[side].has(i);
  const spare = grouped(after.filter(isLeft(1)), (s) => s.key);
  const moved = new Set<StepMeaning>();
  for (const step of before.filter(isLeft(0))) {
    const twin = spare.get(step.key)?.shift();
    if (!twin) continue;
    pairs.moved.push([step, twin]);
    moved.add(step).add(twin);
  }
  let [i, j] = [0, 0];
  for (const [nextI, nextJ] of [...kept, [before.length, after.length] as const]) {
    const gone = before.slice(i, nextI).filter((s) => !moved.has(s));
    const come = after.slice(j, nextJ).filter((s) => !moved.has(s));
    pairGap(gone, come, pairs);
    [i, j] = [nextI + 1, nextJ + 1];
  }
  return pairs;
}

function pairGap(gone: readonly StepMeaning[], come: readonly StepMeaning[], pairs: StepPairs): void {
  const left = [...come];
  for (const step of gone) {
    let at = -1;
    let most = -1;
    for (const [k, other] of left.entries()) {
      if (other.verb !== step.verb) continue;
      const alike = stepAlikeness(step, other);
      if (alike > most) [at, most] = [k, alike];
    }
    const twin = left[at];
    if (!twin) pairs.removed.push(step);
    else {
      pairs.changed.push([step, twin]);
      left.splice(at, 1);
    }
  }
  pairs.added.push(...left);
}

function stepAlikeness(a: StepMeaning, b: StepMeaning): number {
  const slots = (s: StepMeaning) => (s.value as { slots?: Plain }).slots ?? null;
  return alikeness(slots(a), slots(b));
}

/** Indices of the longest row of equal statements in the same order; equal beginnings and ends are cut off first. */
export function longestCommon(before: readonly Statement[], after: readonly Statement[]): [number, number][] {
  let start = 0;
  while (start < before.length && start < after.length && before[start]!.key === after[start]!.key) start++;
  let [endA, endB] = [before.length, after.length];
  while (endA > start && endB > start && before[endA - 1]!.key === after[endB - 1]!.key)
    [endA, endB] = [endA - 1, endB - 1];
  const width = endB - start + 1;
  const table = new Uint32Array((endA - start + 1) * width);
  const cell = (i: number, j: number) => (i - start) * width + (j - start);
  for (let i = endA - 1; i >= start; i--) {
    for (let j = endB - 1; j >= start; j--) {
      const isSame = before[i]!.key === after[j]!.key;
      table[cell(i, j)] = isSame
        ? table[cell(i + 1, j + 1)]! + 1
        : Math.max(table[cell(i + 1, j)]!, table[cell(i, j + 1)]!);
    }
  }
  const common: [number, number][] = Array.from({ length: start }, (_, k) => [k, k]);
  let [i, j] = [start, start];
  while (i < endA && j < endB) {
    if (before[i]!.key === after[j]!.key) common.push([i++, j++]);
    else if (table[cell(i + 1, j)]! >= table[cell(i, j + 1)]!) i++;
    else j++;
  }
  for (let k = endA; k < before.length; k++) common.push([k, k - endA + endB]);
  return common;
}

export function grouped<T>(list: readonly T[], keyOf: (each: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const each of list) {
    const key = keyOf(each);
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return groups;
}
