/** Stretches of one input of an order: with ends that belong to them or not, on steps or without, and the roundest value inside. */
import { Exact } from "../quantities/exact.ts";

export interface Interval {
  low: Exact;
  high: Exact;
  lowIn: boolean;
  highIn: boolean;
}

/** One input: what range it has, and the steps in which it is given, counted from its lower end. */
export interface Axis {
  range: Interval;
  step: Exact | undefined;
}

export function single(value: Exact): Interval {
  return { low: value, high: value, lowIn: true, highIn: true };
}

/** Undefined where nothing lies in it. On steps, both ends become steps that belong to it. */
export function settled(interval: Interval, axis: Axis): Interval | undefined {
  const { step } = axis;
  if (!step) {
    const order = interval.low.compare(interval.high);
    if (order > 0 || (order === 0 && !(interval.lowIn && interval.highIn))) return undefined;
    return interval;
  }
  const from = axis.range.low;
  const lowest = interval.low.minus(from).over(step);
  const highest = interval.high.minus(from).over(step);
  let first = lowest.ceil();
  if (!interval.lowIn && first.equals(lowest)) first = first.plus(Exact.one);
  let last = highest.floor();
  if (!interval.highIn && last.equals(highest)) last = last.minus(Exact.one);
  if (first.isAbove(last)) return undefined;
  const at = (k: Exact) => from.plus(k.times(step));
  return { low: at(first), high: at(last), lowIn: true, highIn: true };
}

/** What of `interval` lies below and above `part`, a stretch within it. */
export function around(interval: Interval, part: Interval, axis: Axis): Interval[] {
  const left = { low: interval.low, lowIn: interval.lowIn, high: part.low, highIn: !part.lowIn };
  const right = { low: part.high, lowIn: !part.highIn, high: interval.high, highIn: interval.highIn };
  return [left, right].map((each) => settled(each, axis)).filter((each) => each !== undefined);
}

/** Multiples that people think in, coarsest first. */
const tens = [5, 4, 3, 2, 1, 0, -1, -2, -3, -4, -5, -6, -7, -8, -9, -10, -11, -12];

/** The value in a stretch that is written with the fewest figures: 50 before 48, 48 before 47.3; the lowest of equally round ones. */
export function roundest(interval: Interval, axis: Axis): Exact {
  const { low, high } = interval;
  if (low.equals(high)) return low;
  for (const power of tens) {
    for (const head of [1, 2, 5]) {
      // 2 and 5 of a power are rounder than 1 of the next lower, and are met on the way down.
      const unit = head === 1 ? tenTo(power) : tenTo(power - 1).times(Exact.of(head === 5 ? 5 : 2));
      let value = low.upTo(unit);
      if (!interval.lowIn && value.equals(low)) value = value.plus(unit);
      const inside = value.isBelow(high) || (interval.highIn && value.equals(high));
      if (inside && isStep(value, axis)) return value;
    }
  }
  return interval.lowIn ? low : interval.highIn ? high : low.plus(high).over(Exact.of(2));
}

function tenTo(power: number): Exact {
  return power >= 0 ? Exact.of(10 ** power) : Exact.ratio(1, 10 ** -power);
}

function isStep(value: Exact, axis: Axis): boolean {
  return !axis.step || value.minus(axis.range.low).over(axis.step).isWhole();
}
