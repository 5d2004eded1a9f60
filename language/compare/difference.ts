/** One figure against another: both, the absolute change, percent and factor, and whether the change looks like a feared slip. */
import type { FigureChange } from "../../shared/comparison.ts";
import { Exact } from "../quantities/exact.ts";
import { fixedHours } from "../quantities/hours.ts";
import { inBase, preferredUnit, type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { InUnitOf } from "./same-amount.ts";

const hundred = Exact.of(100);

/** In the place of a difference, where only the kind of unit is another. */
export const sameAmount = "the same amount";

/** A figure, and its size in a unit that both sides share, where it may be told in units of different kinds: 8 mmol of magnesium in g. */
export interface Figure {
  quantity: Quantity;
  size?: Quantity;
}

/** Undefined where both are the same quantity, in whatever unit. `before` or `after` is left out where there is none. */
export function figureChange(
  what: string,
  before: Quantity | undefined,
  after: Quantity | undefined,
  inUnitOf: InUnitOf = () => undefined,
): FigureChange | undefined {
  const none: FigureChange = { what, before: "", after: "", difference: "", percent: "", factor: "", alarm: "" };
  if (!before || !after) {
    if (!before && !after) return undefined;
    return { ...none, before: before ? showQuantity(before) : "", after: after ? showQuantity(after) : "" };
  }
  const texts = { before: showQuantity(before), after: showQuantity(after) };
  if (!isSameKind(before, after)) return ofTwoKinds({ ...none, ...texts }, before, after, inUnitOf(before, after));
  const [was, is] = [inBase(before), inBase(after)];
  if (was.equals(is)) return undefined;
  const unit = before.unit;
  const moved = { value: is.minus(was).over(unit.factor), unit };
  // Four figures can hide a small change: then more are shown.
  const digits = texts.before === texts.after ? 12 : undefined;
  if (digits) Object.assign(texts, { before: showQuantity(before, digits), after: showQuantity(after, digits) });
  const words = ratioWords(was, is);
  return { ...none, ...texts, difference: signed(moved), ...words, alarm: words.alarm || sameFigure(before, after) };
}

function isSameKind(a: Quantity, b: Quantity): boolean {
  return a.unit.dimension === b.unit.dimension && a.unit.activityKind === b.unit.activityKind;
}

/** Hours and days are laid side by side as if each day had 24 h; other kinds only where it is known how much the one is of the other. */
function ofTwoKinds(
  texts: FigureChange,
  before: Quantity,
  after: Quantity,
  converted: Quantity | undefined,
): FigureChange {
  if (converted) {
    const sized = figureChange(texts.what, converted, after);
    if (!sized) return { ...texts, difference: sameAmount };
    return {
      ...sized,
      before: texts.before,
      alarm: sized.alarm || `another kind of unit: ${exchanged(before, after)}`,
    };
  }
  const [was, is] = [inHours(before), inHours(after)];
  if (!was || !is) return { ...texts, alarm: `another kind of unit: ${exchanged(before, after)}` };
  const [from, to] = [inBase(was), inBase(is)];
  // 24 h and 1 day are as long, and are not the same: a day ends at its clock time.
  if (from.equals(to)) return texts;
  const moved = { value: to.minus(from).over(was.unit.factor), unit: was.unit };
  const words = ratioWords(from, to);
  return { ...texts, difference: signed(moved), ...words, alarm: words.alarm || sameFigure(before, after) };
}

function exchanged(before: Quantity, after: Quantity): string {
  return `${before.unit.spelling} became ${after.unit.spelling}`;
}

/**
 * As figureChange, for amounts whose size at the bench is known: where the two are counted in units of different kinds, or the same
 * count has another size now (another formula), the sizes are laid side by side. The same size in another kind of unit is no change.
 */
export function sizedChange(
  what: string,
  before: Figure | undefined,
  after: Figure | undefined,
): FigureChange | undefined {
  const plain = figureChange(what, before?.quantity, after?.quantity);
  if (!before?.size || !after?.size || !isSameKind(before.size, after.size)) return plain;
  if (plain && isSameKind(before.quantity, after.quantity)) return plain;
  const bySize = figureChange(what, preferredUnit(before.size), preferredUnit(after.size));
  const told = ({ quantity }: Figure, size: string) => {
    const figure = showQuantity(quantity);
    return figure === size ? figure : `${figure} (${size})`;
  };
  if (!bySize) return undefined;
  const texts = { before: told(before, bySize.before), after: told(after, bySize.after) };
  return { ...bySize, ...texts, alarm: plain?.alarm || bySize.alarm };
}

const hour = findUnit("h").unit!;

function inHours(q: Quantity): Quantity | undefined {
  if (q.unit.dimension === hour.dimension) return q;
  const value = fixedHours(q);
  return value && { value, unit: hour };
}

export const sameFigureAlarm = "the same figure in another unit";

/** 4 h that became 4 min: a unit was exchanged and its figure forgotten. */
function sameFigure(before: Quantity, after: Quantity): string {
  const [was, is] = [before.unit.spelling, after.unit.spelling];
  return was !== is && before.value.equals(after.value) ? `${sameFigureAlarm}: ${exchanged(before, after)}` : "";
}

/** Share by which a figure changed, for telling the largest; undefined where there was none before. */
export function shareChanged(before: Figure | undefined, after: Figure | undefined): Exact | undefined {
  if (!before || before.quantity.value.isZero()) return undefined;
  if (!after) return Exact.one;
  const pairs = [
    [before.quantity, after.quantity],
    [inHours(before.quantity), inHours(after.quantity)],
    [before.size, after.size],
  ];
  const shares = pairs.flatMap(([was, is]) =>
    was && is && isSameKind(was, is) ? [inBase(is).minus(inBase(was)).over(inBase(was)).abs()] : [],
  );
  return shares.find((share) => !share.isZero());
}

function signed(q: Quantity): string {
  const text = q.unit.spelling === "%" ? `${q.value.toText()} percentage points` : showQuantity(q);
  return q.value.isPositive() ? `+${text}` : text;
}

function ratioWords(was: Exact, is: Exact): Pick<FigureChange, "percent" | "factor" | "alarm"> {
  if (was.isZero() || (!is.isZero() && was.isNegative() !== is.isNegative()))
    return { percent: "", factor: "", alarm: "" };
  if (is.isZero()) return { percent: "-100 %", factor: "0 times", alarm: "" };
  const ratio = is.over(was);
  const share = ratio.minus(Exact.one).times(hundred);
  const percent = `${share.isPositive() ? "+" : ""}${shown(share)} %`;
  return { percent, factor: `${shown(ratio)} times`, alarm: slipOf(ratio) };
}

function shown(value: Exact): string {
  return value.roundedToDigits(3).toText();
}

const powers = [10, 100, 1_000, 10_000, 100_000, 1_000_000].map((n) => Exact.of(n));
/** A derived figure misses the power a little, because the volume of the drug itself stays. */
const near = Exact.ratio(5, 100);

function slipOf(ratio: Exact): string {
  const isMore = ratio.isAbove(Exact.one);
  const size = isMore ? ratio : ratio.reciprocal();
  for (const power of powers) {
    if (size.over(power).minus(Exact.one).abs().isAbove(near)) continue;
    const about = size.equals(power) ? "" : "about ";
    const times = power.toText().replace(/\B(?=(\d{3})+$)/g, ",");
    return `${about}${times} times ${isMore ? "more" : "less"}`;
  }
  return "";
}
