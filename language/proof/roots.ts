/**
 * Where a polynomial in one input changes its sign next: exactly for a straight line, and between two rational bounds as close
 * as asked for the rest, by Sturm's chain (C. Sturm, 1829; any text on real root counting).
 */
import { Exact } from "../quantities/exact.ts";

/** Coefficients from the constant up, the last one not zero. */
export type Coefficients = readonly Exact[];

/** The nearest zero beyond a point: itself, or two bounds with a zero between them and none between the point and the nearer. */
export type NearestZero = { exactly: Exact } | { beyond: Exact; before: Exact };

/** @param from where the polynomial is not zero; @param to the end of the search, on either side of `from` */
export function nearestZero(p: Coefficients, from: Exact, to: Exact, width: Exact): NearestZero | undefined {
  if (p.length < 2) return undefined;
  if (p.length === 2) {
    const zero = p[0]!.negated().over(p[1]!);
    const ahead = to.isAtLeast(from)
      ? zero.isAbove(from) && zero.isAtMost(to)
      : zero.isBelow(from) && zero.isAtLeast(to);
    return ahead ? { exactly: zero } : undefined;
  }
  const chain = sturmChain(p);
  const between = (a: Exact, b: Exact) =>
    a.isBelow(b) ? changes(chain, a) - changes(chain, b) : changes(chain, b) - changes(chain, a);
  if (valueAt(p, to).isZero() && between(from, to) <= 1 && onlyAtEnd(p, chain, from, to)) return { exactly: to };
  if (between(from, to) === 0 && !valueAt(p, to).isZero()) return undefined;
  let near = from;
  let far = to;
  while (far.minus(near).abs().isAbove(width)) {
    const middle = near.plus(far).over(Exact.of(2));
    if (valueAt(p, middle).isZero()) {
      if (onlyAtEnd(p, chain, near, middle)) return { exactly: middle };
      far = middle;
    } else if (between(near, middle) > 0) far = middle;
    else near = middle;
  }
  return { beyond: near, before: far };
}

/** Whether the zero at `end` is the only one from `start` (no zero) to it. */
function onlyAtEnd(p: Coefficients, chain: readonly Coefficients[], start: Exact, end: Exact): boolean {
  // Sturm counts (a, b]: a zero at the upper end is counted, one at the lower end is not.
  const [a, b] = start.isBelow(end) ? [start, end] : [end, start];
  const counted = changes(chain, a) - changes(chain, b);
  return valueAt(p, b).isZero() ? counted === 1 : counted === 0;
}

export function valueAt(p: Coefficients, x: Exact): Exact {
  let value = Exact.zero;
  for (let k = p.length - 1; k >= 0; k--) value = value.times(x).plus(p[k]!);
  return value;
}

function sturmChain(p: Coefficients): Coefficients[] {
  const chain: Coefficients[] = [p, derivative(p)];
  for (;;) {
    const last = chain.at(-1)!;
    if (last.length < 2) return chain;
    const rest = remainder(chain.at(-2)!, last).map((c) => c.negated());
    if (rest.length === 0) return chain;
    chain.push(scaled(rest));
  }
}

/** Number of changes of sign in the chain at a point, zeros left out. */
function changes(chain: readonly Coefficients[], x: Exact): number {
  let count = 0;
  let before = 0;
  for (const p of chain) {
    const sign = valueAt(p, x).compare(Exact.zero);
    if (sign === 0) continue;
    if (before !== 0 && sign !== before) count++;
    before = sign;
  }
  return count;
}

function derivative(p: Coefficients): Exact[] {
  return p.slice(1).map((c, k) => c.times(Exact.of(k + 1)));
}

/** The rest of a division, without leading zeros. */
export function remainder(a: Coefficients, b: Coefficients): Exact[] {
  const rest = [...a];
  const lead = b.at(-1)!;
  while (rest.length >= b.length) {
    const factor = rest.at(-1)!.over(lead);
    const shift = rest.length - b.length;
    for (let k = 0; k < b.length; k++) rest[shift + k] = rest[shift + k]!.minus(factor.times(b[k]!));
    rest.pop();
    while (rest.length > 0 && rest.at(-1)!.isZero()) rest.pop();
  }
  return rest;
}

/** By a positive factor, so that the figures of a long chain stay short and no sign changes. */
function scaled(p: Coefficients): Exact[] {
  const lead = p.at(-1)!.abs();
  return p.map((c) => c.over(lead));
}
