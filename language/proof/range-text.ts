/** Stretches of a range in words: `40 kg to 62.4 kg`, `above 62.5 kg`, `from 100 kg`. */
import type { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";
import type { Box } from "./cover.ts";
import { around, type Interval } from "./interval.ts";
import type { OrderAxis } from "./order-axes.ts";

/** `weight 50 kg`, `weight 12 kg and age 3 months`. */
export function pointText(axes: readonly OrderAxis[], values: readonly Exact[]): string {
  return axes
    .map(({ input, unit }, k) => `${inputWord(input)} ${showQuantity({ value: values[k]!, unit })}`)
    .join(" and ");
}

function inputWord(input: OrderAxis["input"]): string {
  return input.replace("-", " ");
}

export function boxText(axes: readonly OrderAxis[], box: Box): string {
  return axes.map((axis, k) => `${inputWord(axis.input)} ${intervalText(axis, box[k]!)}`).join(" and ");
}

/** More stretches than these are told by their number and their ends. */
const mostTold = 4;

/** Several stretches of the one axis, neighbours joined: `40 kg to 62.4 kg and 80 kg to 120 kg`. */
export function stretchesText(axis: OrderAxis, stretches: readonly Interval[]): string {
  const all = joined(axis, stretches);
  if (all.length <= mostTold) return all.map((each) => intervalText(axis, each)).join(" and ");
  const whole = { ...all[0]!, high: all.at(-1)!.high, highIn: all.at(-1)!.highIn };
  return `${all.length} stretches within ${intervalText(axis, whole)}`;
}

/** What of the axis is not in the stretches. */
export function restOf(axis: OrderAxis, stretches: readonly Interval[]): Interval[] {
  let rest: Interval[] = [axis.range];
  for (const stretch of stretches) {
    rest = rest.flatMap((each) => (apart(each, stretch) ? [each] : around(each, within(each, stretch), axis)));
  }
  return joined(axis, rest);
}

function apart(a: Interval, b: Interval): boolean {
  return isBefore(a, b) || isBefore(b, a);
}

function isBefore(a: Interval, b: Interval): boolean {
  const order = a.high.compare(b.low);
  return order < 0 || (order === 0 && !(a.highIn && b.lowIn));
}

function within(outer: Interval, inner: Interval): Interval {
  const lowFirst = outer.low.compare(inner.low);
  const highFirst = outer.high.compare(inner.high);
  return {
    low: lowFirst >= 0 ? outer.low : inner.low,
    lowIn: lowFirst > 0 ? outer.lowIn : lowFirst < 0 ? inner.lowIn : outer.lowIn && inner.lowIn,
    high: highFirst <= 0 ? outer.high : inner.high,
    highIn: highFirst < 0 ? outer.highIn : highFirst > 0 ? inner.highIn : outer.highIn && inner.highIn,
  };
}

/** In rising order, stretches that touch made one. */
function joined(axis: OrderAxis, stretches: readonly Interval[]): Interval[] {
  const sorted = [...stretches].sort((a, b) => a.low.compare(b.low) || Number(b.lowIn) - Number(a.lowIn));
  const list: Interval[] = [];
  for (const next of sorted) {
    const last = list.at(-1);
    const gap = last ? next.low.minus(last.high) : undefined;
    const touches = last && gap && (axis.step ? gap.equals(axis.step) : gap.isZero() && (last.highIn || next.lowIn));
    if (last && touches) list[list.length - 1] = { ...last, high: next.high, highIn: next.highIn };
    else list.push(next);
  }
  return list;
}

function intervalText(axis: OrderAxis, { low, high, lowIn, highIn }: Interval): string {
  const show = (value: Exact) => showQuantity({ value, unit: axis.unit });
  if (low.equals(high)) return show(low);
  if (lowIn && highIn) return `${show(low)} to ${show(high)}`;
  const from = lowIn ? `from ${show(low)}` : `above ${show(low)}`;
  return `${from} ${highIn ? "up to" : "to below"} ${show(high)}`;
}
