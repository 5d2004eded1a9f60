/** One figure against another: both, the absolute change, percent and factor, and whether the change looks like a feared slip. */
import type { FigureChange } from "../../shared/comparison.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";

const hundred = Exact.of(100);

/** Undefined where both are the same quantity, in whatever unit. `before` or `after` is left out where there is none. */
export function figureChange(
  what: string,
  before: Quantity | undefined,
  after: Quantity | undefined,
): FigureChange | undefined {
  const none: FigureChange = { what, before: "", after: "", difference: "", percent: "", factor: "", alarm: "" };
  if (!before || !after) {
    if (!before && !after) return undefined;
    return { ...none, before: before ? showQuantity(before) : "", after: after ? showQuantity(after) : "" };
  }
  const texts = { before: showQuantity(before), after: showQuantity(after) };
  if (before.unit.dimension !== after.unit.dimension || before.unit.activityKind !== after.unit.activityKind) {
    return { ...none, ...texts, alarm: `another kind of unit: ${before.unit.spelling} became ${after.unit.spelling}` };
  }
  const [was, is] = [inBase(before), inBase(after)];
  if (was.equals(is)) return undefined;
  const unit = before.unit;
  const moved = { value: is.minus(was).over(unit.factor), unit };
  // Four figures can hide a small change: then more are shown.
  const digits = texts.before === texts.after ? 12 : undefined;
  if (digits) Object.assign(texts, { before: showQuantity(before, digits), after: showQuantity(after, digits) });
  return { ...none, ...texts, difference: signed(moved), ...ratioWords(was, is) };
}

/** Share by which a figure changed, for telling the largest; undefined where there is none. */
export function shareChanged(before: Quantity | undefined, after: Quantity | undefined): Exact | undefined {
  if (!before || !after || before.unit.dimension !== after.unit.dimension) return undefined;
  const [was, is] = [inBase(before), inBase(after)];
  return was.isZero() ? undefined : is.minus(was).over(was).abs();
}

function signed(q: Quantity): string {
  const text = showQuantity(q);
  return q.value.isPositive() ? `+${text}` : text;
}

function ratioWords(was: Exact, is: Exact): Pick<FigureChange, "percent" | "factor" | "alarm"> {
  if (was.isZero() || is.isZero() || was.isNegative() !== is.isNegative())
    return { percent: "", factor: "", alarm: "" };
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
