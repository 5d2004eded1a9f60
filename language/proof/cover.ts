/**
 * Cuts a range of orders into pieces within which a run of the bench decides everything alike, so that one run stands for all.
 *
 * A run with traced numbers at one point tells the comparisons that it made; each is the sign of a polynomial. Where that depends
 * on one input alone, the stretch on which the sign stays is found exactly (a straight line) or between close bounds (Sturm). Where
 * it depends on several, interval arithmetic over the box decides, and the box is halved until it does. What is left over is cut
 * off and tried again; what is too narrow or too much is said to be undecided, never passed over.
 */
import { Exact } from "../quantities/exact.ts";
import { type Axis, around, type Interval, roundest, settled, single } from "./interval.ts";
import { nearestZero, valueAt } from "./roots.ts";
import { above, below, type Condition, type Signs, Trace, zero } from "./traced.ts";

export type Box = readonly Interval[];

export interface Piece<R> {
  box: Box;
  /** The roundest point of it, at which the run was made. */
  point: readonly Exact[];
  result: R;
}

export interface Undecided {
  box: Box;
  reason: string;
}

export interface Cover<R> {
  pieces: Piece<R>[];
  undecided: Undecided[];
}

/** Beyond so many pieces the rest of a range is left undecided, so that an editor never waits long. */
export const mostPieces = 400;
/** A box is halved so often before the run counts for its own point alone. */
const mostHalvings = 24;
/** Stretches narrower than this part of the whole range are not cut further. */
const narrowest = Exact.ratio(1, 1_000_000_000);

/** @param evaluate one run at the trace's point; it may use `trace.input(n)` for the n-th axis */
export function cover<R>(axes: readonly Axis[], evaluate: (trace: Trace) => R, most = mostPieces): Cover<R> {
  const pieces: Piece<R>[] = [];
  const undecided: Undecided[] = [];
  const whole: Box = axes.map((a) => settled(a.range, a)).filter((i) => i !== undefined);
  if (whole.length < axes.length) return { pieces, undecided };
  const steps = axes.map((axis) => axis.step);
  const work = new Work(axes);
  work.add([whole]);
  for (;;) {
    const box = work.take();
    if (!box) return { pieces, undecided };
    if (pieces.length >= most) {
      undecided.push({ box, reason: `it falls into more than ${most} pieces` });
      continue;
    }
    if (isTooNarrow(box, axes)) {
      const reason =
        axes.length > 1
          ? "the border between two cases runs slantwise through it"
          : "the turning point in it has no exact decimal";
      undecided.push({ box, reason });
      continue;
    }
    const point = box.map((interval, k) => roundest(interval, axes[k]!));
    const trace = new Trace(point, steps);
    const result = evaluate(trace);
    const part = trace.pinned ? point.map(single) : validAround(point, box, axes, trace.conditions);
    pieces.push({ box: part, point, result });
    work.add(without(box, part, axes));
  }
}

/** What is still to be looked at. Of several inputs the largest part comes first, so that what stays undecided is small. */
class Work {
  private readonly boxes: { box: Box; size: number }[] = [];

  constructor(private readonly axes: readonly Axis[]) {}

  add(boxes: readonly Box[]): void {
    for (const box of boxes) this.boxes.push({ box, size: this.axes.length > 1 ? shareOf(box, this.axes) : 0 });
  }

  take(): Box | undefined {
    if (this.axes.length === 1) return this.boxes.pop()?.box;
    let largest = this.boxes.length - 1;
    for (let i = largest - 1; i >= 0; i--) if (this.boxes[i]!.size > this.boxes[largest]!.size) largest = i;
    return this.boxes.splice(largest, 1)[0]?.box;
  }
}

/** Its share of the whole, near enough to choose by. A single value counts as one step, or as the narrowest stretch. */
export function shareOf(box: Box, axes: readonly Axis[]): number {
  return box.reduce((size, { low, high }, k) => {
    const { range, step } = axes[k]!;
    const all = range.high.minus(range.low);
    if (!all.isPositive()) return size;
    const one = step ?? all.times(narrowest);
    return size * Number(high.minus(low).plus(one).over(all.plus(one)).toDecimal());
  }, 1);
}

function isTooNarrow(box: Box, axes: readonly Axis[]): boolean {
  return box.some((interval, k) => {
    const { range, step } = axes[k]!;
    const width = interval.high.minus(interval.low);
    return !step && width.isPositive() && width.isBelow(range.high.minus(range.low).times(narrowest));
  });
}

/** The box about `point` in which all conditions keep one of their signs. */
function validAround(
  point: readonly Exact[],
  box: Box,
  axes: readonly Axis[],
  conditions: readonly Condition[],
): Interval[] {
  let part = [...box];
  const mixed: Condition[] = [];
  for (const condition of conditions) {
    const [input, ...more] = condition.polynomial.inputs();
    if (more.length > 0) mixed.push(condition);
    else if (input !== undefined) part[input] = narrowed(part[input]!, point[input]!, condition, input, axes[input]!);
  }
  part = part.map((interval, k) => settled(interval, axes[k]!) ?? single(point[k]!));
  let halvings = 0;
  for (const condition of mixed) {
    while (!keeps(condition, part)) {
      if (halvings++ >= mostHalvings) return point.map(single);
      part = halved(part, point, axes);
    }
  }
  return part;
}

/** The stretch about `at` on which a condition on this input alone holds. */
function narrowed(
  interval: Interval,
  at: Exact,
  { polynomial, signs }: Condition,
  input: number,
  axis: Axis,
): Interval {
  const p = polynomial.inOne(input);
  const here = valueAt(p, at);
  if (here.isZero()) {
    if (p.length > 2) return single(at);
    const rising = p[1]!.isPositive();
    return {
      ...(signs & (rising ? below : above) ? { low: interval.low, lowIn: interval.lowIn } : { low: at, lowIn: true }),
      ...(signs & (rising ? above : below)
        ? { high: interval.high, highIn: interval.highIn }
        : { high: at, highIn: true }),
    };
  }
  // A straight line may be followed through its zero where the other sign is allowed too.
  const other: Signs = here.isPositive() ? below : above;
  if (p.length === 2 && signs & zero && signs & other) return interval;
  const width = axis.step ?? axis.range.high.minus(axis.range.low).times(narrowest);
  const up = nearestZero(p, at, interval.high, width);
  const down = nearestZero(p, at, interval.low, width);
  const zeroIn = (signs & zero) !== 0;
  return {
    ...(down
      ? "exactly" in down
        ? // A zero at an end that is already left out does not bring it back.
          { low: down.exactly, lowIn: zeroIn && (interval.lowIn || down.exactly.isAbove(interval.low)) }
        : { low: down.beyond, lowIn: true }
      : { low: interval.low, lowIn: interval.lowIn }),
    ...(up
      ? "exactly" in up
        ? { high: up.exactly, highIn: zeroIn && (interval.highIn || up.exactly.isBelow(interval.high)) }
        : { high: up.beyond, highIn: true }
      : { high: interval.high, highIn: interval.highIn }),
  };
}

/** Whether a condition holds in the whole box, by interval arithmetic. */
function keeps({ polynomial, signs }: Condition, box: Box): boolean {
  const { low, high } = polynomial.over(box);
  const reached = (low.isNegative() ? below : 0) | (high.isPositive() ? above : 0);
  const touches = !low.isPositive() && !high.isNegative() ? zero : 0;
  return ((reached | touches) & ~signs) === 0;
}

/** The half of the longest side that holds the point. */
function halved(box: readonly Interval[], point: readonly Exact[], axes: readonly Axis[]): Interval[] {
  let longest = 0;
  let share = Exact.of(-1);
  for (const [k, interval] of box.entries()) {
    const whole = axes[k]!.range.high.minus(axes[k]!.range.low);
    const own = whole.isPositive() ? interval.high.minus(interval.low).over(whole) : Exact.zero;
    if (own.isAbove(share)) [longest, share] = [k, own];
  }
  const interval = box[longest]!;
  const middle = interval.low.plus(interval.high).over(Exact.of(2));
  const lower = point[longest]!.isAtMost(middle);
  const half = lower ? { ...interval, high: middle, highIn: true } : { ...interval, low: middle, lowIn: false };
  return box.map((each, k) => (k === longest ? (settled(half, axes[k]!) ?? single(point[k]!)) : each));
}

/** What is left of a box when a part is taken out of it, as boxes. */
function without(box: Box, part: Box, axes: readonly Axis[]): Box[] {
  const rest: Box[] = [];
  const core = [...box];
  for (const [k, interval] of box.entries()) {
    for (const side of around(interval, part[k]!, axes[k]!)) rest.push(core.map((each, j) => (j === k ? side : each)));
    core[k] = part[k]!;
  }
  return rest;
}
