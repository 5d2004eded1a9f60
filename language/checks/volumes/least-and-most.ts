/** A claim of the least and the most that a step moves, over the orders that were looked at. */
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { states } from "../claims.ts";
import type { RangeJudgement } from "../over-range.ts";

/** An end of a range that belongs to no patient is looked at close to it; what that leaves is no difference. */
const noDifference = Exact.ratio(1, 1_000_000);

/** As written, which may be rounded. Where a part of the range is not decided its least and most are not known; a claim that is passed is wrong all the same. */
export function isLeastAndMost(
  from: Quantity,
  to: Quantity,
  low: Exact,
  high: Exact,
  range: RangeJudgement | undefined,
): boolean {
  const [least, most] = [inBase(from), inBase(to)];
  if (states(least, low) && states(most, high)) return true;
  if (!range) return false;
  if (isBelow(low, least) || isBelow(most, high)) return false;
  return range.undecided.length > 0 || !(isBelow(least, low) || isBelow(high, most));
}

function isBelow(a: Exact, b: Exact): boolean {
  return b.minus(a).isAbove(b.abs().times(noDifference));
}
