import { keptWith } from "./kept-with.ts";

interface Near {
  name: string;
  distance: number;
}

/** Near names for an unknown one, at most three, nearest first: one slip of the finger in short names, two in long ones. */
export function nearNames(name: string, known: Iterable<string>): string[] {
  return nearest(near(name, known)).map((n) => n.name);
}

/** The same among long lists that stay one object while they say the same: many ask for one name when it is gone. */
export function nearNamesIn(name: string, lists: readonly (readonly string[])[]): string[] {
  return nearest(lists.flatMap((list) => nearInList(name, list))).map((n) => n.name);
}

const nearBy = keptWith<readonly string[], Map<string, readonly Near[]>>(() => new Map());

function nearInList(name: string, list: readonly string[]): readonly Near[] {
  const known = nearBy(list);
  const before = known.get(name);
  if (before) return before;
  const found = nearest(near(name, list));
  known.set(name, found);
  return found;
}

function nearest(found: readonly Near[]): Near[] {
  return [...found].sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1)).slice(0, 3);
}

function near(name: string, known: Iterable<string>): Near[] {
  const wanted = name.toLowerCase();
  const most = wanted.length < 5 ? 1 : wanted.length < 9 ? 2 : 3;
  const found: Near[] = [];
  for (const candidate of known) {
    if (Math.abs(candidate.length - wanted.length) > most) continue;
    const distance = slips(wanted, candidate.toLowerCase(), most);
    if (distance <= most) found.push({ name: candidate, distance });
  }
  return found;
}

/** Rows of `slips`, taken again for every pair: an export of another library asks for some million. */
let [row, previous, before] = rowsFor(64);

/** Insertions, deletions, replacements and swaps of neighbours between two words; stops counting above `most`. */
export function slips(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  if (b.length >= row.length) {
    [row, previous, before] = rowsFor(2 * b.length);
  }
  for (let j = 0; j <= b.length; j++) previous[j] = j;
  for (let i = 1; i <= a.length; i++) {
    // Further than `most` off the diagonal no cell can count.
    const from = Math.max(1, i - most);
    const to = Math.min(b.length, i + most);
    row[from - 1] = from === 1 ? i : most + 1;
    let least = row[from - 1]!;
    if (to < b.length) row[to + 1] = most + 1;
    for (let j = from; j <= to; j++) {
      const same = a.charCodeAt(i - 1) === b.charCodeAt(j - 1) ? 0 : 1;
      let cost = Math.min(previous[j]! + 1, row[j - 1]! + 1, previous[j - 1]! + same);
      const isSwap = i > 1 && j > 1 && a.charCodeAt(i - 1) === b.charCodeAt(j - 2);
      if (isSwap && a.charCodeAt(i - 2) === b.charCodeAt(j - 1)) cost = Math.min(cost, before[j - 2]! + 1);
      row[j] = cost;
      if (cost < least) least = cost;
    }
    if (least > most) return most + 1;
    [before, previous, row] = [previous, row, before];
  }
  return Math.min(previous[b.length]!, most + 1);
}

function rowsFor(length: number): [Uint16Array, Uint16Array, Uint16Array] {
  return [new Uint16Array(length), new Uint16Array(length), new Uint16Array(length)];
}
