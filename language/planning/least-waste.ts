/**
 * Which containers to open so that they hold what is needed with the least left over. Exact: amounts are counted in the largest
 * measure that all sizes are whole multiples of, and every total is looked at, so that nothing better is missed.
 *
 * Among equal leftovers the fewest containers win; among those the larger sizes.
 */
import { Exact } from "../quantities/exact.ts";

export interface Size {
  name: string;
  /** What one container yields, in one common unit; above zero. */
  yields: Exact;
}

export interface Choice {
  /** How many of each size, only those above zero, the largest size first. */
  counts: readonly { name: string; count: number }[];
  containers: number;
  total: Exact;
  /** `total` less what was needed. */
  waste: Exact;
}

/** Totals beyond this many common measures are not searched; a slip in a figure must not fill the memory. */
const mostMeasures = 2_000_000n;

/**
 * @param needed above zero, in the unit of the sizes
 * @returns undefined where nothing is needed, no size is given, or the sizes have no workable common measure
 */
export function leastWaste(needed: Exact, sizes: readonly Size[]): Choice | undefined {
  const usable = sizes.filter((s) => s.yields.isPositive()).sort((a, b) => b.yields.compare(a.yields));
  if (usable.length === 0 || !needed.isPositive()) return undefined;
  const measure = commonMeasure(usable.map((s) => s.yields));
  const parts = usable.map((s) => whole(s.yields.over(measure)));
  const least = whole(needed.over(measure).ceil());
  // One container more than needed may waste less, but never a whole largest one.
  const most = least + parts[0]!;
  if (most > mostMeasures) return undefined;
  return best(needed, usable, parts.map(Number), Number(least), Number(most));
}

function best(needed: Exact, sizes: readonly Size[], parts: number[], least: number, most: number): Choice | undefined {
  const unreachable = 0;
  // fewest[t]: containers whose yields add up to just t, plus one; 0 where none do. last[t]: the size opened last.
  const fewest = new Int32Array(most + 1).fill(unreachable);
  const last = new Int16Array(most + 1);
  fewest[0] = 1;
  for (let total = 1; total <= most; total++) {
    for (const [k, part] of parts.entries()) {
      const before = total >= part ? fewest[total - part]! : unreachable;
      if (before === unreachable) continue;
      if (fewest[total] === unreachable || before + 1 < fewest[total]!) {
        fewest[total] = before + 1;
        last[total] = k;
      }
    }
  }
  for (let total = least; total <= most; total++) {
    if (fewest[total] !== unreachable) return choiceOf(needed, sizes, parts, last, total);
  }
  return undefined;
}

function choiceOf(
  needed: Exact,
  sizes: readonly Size[],
  parts: readonly number[],
  last: Int16Array,
  total: number,
): Choice {
  const counts = sizes.map(() => 0);
  for (let rest = total; rest > 0; ) {
    const k = last[rest]!;
    counts[k]!++;
    rest -= parts[k]!;
  }
  const sum = sizes.reduce((all, s, k) => all.plus(s.yields.times(Exact.of(counts[k]!))), Exact.zero);
  return {
    counts: sizes.flatMap((s, k) => (counts[k]! > 0 ? [{ name: s.name, count: counts[k]! }] : [])),
    containers: counts.reduce((a, b) => a + b, 0),
    total: sum,
    waste: sum.minus(needed),
  };
}

/** The largest number of which all are whole multiples. */
function commonMeasure(values: readonly Exact[]): Exact {
  return values.reduce((a, b) => gcd(a, b));
}

function gcd(a: Exact, b: Exact): Exact {
  let [x, y] = [a, b];
  while (!y.isZero()) [x, y] = [y, x.minus(x.downTo(y))];
  return x;
}

function whole(value: Exact): bigint {
  return BigInt(value.toText());
}
