/** Stretches of a range in words: `40 kg to 62.4 kg`, `above 62.5 kg`, `from 100 kg`. */
import type { OrderPoint } from "../bench/order-rows.ts";
import { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";
import type { Box } from "./cover.ts";
import { around, type Interval } from "./interval.ts";
import type { OrderAxis } from "./order-axes.ts";

/** `weight 50 kg`, `weight 12 kg and age 3 months`. */
export function pointText(axes: readonly OrderAxis[], values: readonly Exact[]): string {
  return axes.map((axis, k) => `${inputWord(axis.input)} ${valueText(values[k]!, axis)}`).join(" and ");
}

/** The same of the order that a run was made for, to the figures that ends are told with. */
export function orderText(axes: readonly OrderAxis[], point: OrderPoint): string {
  const values = axes.map((axis) => point.get(axis.input)?.value.toNearest(finestFigure(axis)) ?? Exact.zero);
  return pointText(axes, values);
}

export function inputWord(input: string): string {
  return input.replace("-", " ");
}

/** A box that is not known to hold: its ends are never told narrower than they are. */
export function boxText(axes: readonly OrderAxis[], box: Box): string {
  return axes.map((axis, k) => `${inputWord(axis.input)} ${intervalText(outward(box[k]!, axis), axis)}`).join(" and ");
}

/** What cannot be written in full is said to be near what is written. */
function valueText(value: Exact, axis: OrderAxis): string {
  const figure = finestFigure(axis);
  const show = (shown: Exact) => showQuantity({ value: shown, unit: axis.unit });
  return value.over(figure).isWhole() ? show(value) : `about ${show(value.toNearest(figure))}`;
}

/** More stretches than these are told by their number and their ends. */
const mostTold = 4;

/** Several stretches of the one axis on which something is so, neighbours joined: `40 kg to 62.4 kg and 80 kg to 120 kg`. */
export function stretchesText(axis: OrderAxis, stretches: readonly Interval[]): string {
  return listed(
    axis,
    joined(axis, stretches).map((each) => outward(each, axis)),
  );
}

/** The same for stretches that are said to be safe: no end is told further out than it is. */
export function safeStretchesText(axis: OrderAxis, stretches: readonly Interval[]): string {
  return listed(
    axis,
    joined(axis, stretches)
      .map((each) => inward(each, axis))
      .filter(({ low, high }) => low.isAtMost(high)),
  );
}

function listed(axis: OrderAxis, all: readonly Interval[]): string {
  if (all.length <= mostTold) return all.map((each) => intervalText(each, axis)).join(" and ");
  const whole = { ...all[0]!, high: all.at(-1)!.high, highIn: all.at(-1)!.highIn };
  return `${intervalText(whole, axis)} with gaps (${all.length} separate parts)`;
}

/** An end without a short decimal is told to so many places at least, and closer than a millionth of the range. */
const leastPlaces = 6;

function finestFigure({ range }: OrderAxis): Exact {
  const tenth = Exact.ratio(1, 10);
  const close = range.high.minus(range.low).times(Exact.ratio(1, 10 ** leastPlaces));
  let figure = Exact.ratio(1, 10 ** leastPlaces);
  while (figure.isAbove(close)) figure = figure.times(tenth);
  return figure;
}

/** With ends that can be written; where that moves an end, the figure told lies outside and does not belong to the stretch. */
function outward({ low, high, lowIn, highIn }: Interval, axis: OrderAxis): Interval {
  if (low.equals(high)) return { low, high, lowIn, highIn };
  const figure = finestFigure(axis);
  const [from, to] = [low.downTo(figure), high.upTo(figure)];
  return { low: from, high: to, lowIn: lowIn && from.equals(low), highIn: highIn && to.equals(high) };
}

/** With ends that can be written; where that moves an end, the figure told lies inside. */
function inward({ low, high, lowIn, highIn }: Interval, axis: OrderAxis): Interval {
  const figure = finestFigure(axis);
  const [from, to] = [low.upTo(figure), high.downTo(figure)];
  return { low: from, high: to, lowIn: lowIn || !from.equals(low), highIn: highIn || !to.equals(high) };
}

/** What of the axis is not in the stretches. */
export function restOf(axis: OrderAxis, stretches: readonly Interval[]): Interval[] {
  let rest: Interval[] = [axis.range];
  for (const stretch of stretches) {
    rest = rest.flatMap((each) => (apart(each, stretch) ? [each] : around(each, within(each, stretch), axis)));
  }
  return joined(axis, rest);
}

/** Whether two stretches have nothing in common. */
export function apart(a: Interval, b: Interval): boolean {
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

/** Stretches that may lie over each other, made one where they do or touch. */
export function merged(axis: OrderAxis, stretches: readonly Interval[]): Interval[] {
  return restOf(axis, restOf(axis, stretches));
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

function intervalText({ low, high, lowIn, highIn }: Interval, axis: OrderAxis): string {
  const show = (value: Exact) => showQuantity({ value, unit: axis.unit });
  if (low.equals(high)) return valueText(low, axis);
  if (lowIn && highIn) return `${show(low)} to ${show(high)}`;
  const from = lowIn ? `from ${show(low)}` : `above ${show(low)}`;
  return `${from} ${highIn ? "up to" : "to below"} ${show(high)}`;
}
