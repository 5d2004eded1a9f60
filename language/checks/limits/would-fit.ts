/** The figure that would lie within a limit, for the sentence that says what to do: rounded to what is measured, and laid against the limit itself. */
import { Exact } from "../../quantities/exact.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { ml } from "../showing.ts";

/** Whether the strength or the rate would be allowed at this part of what it is. */
type Fits = (share: Exact) => boolean;

const [ten, tenth] = [Exact.of(10), Exact.of("0.1")];

/**
 * The volume up to which a liquid is diluted; undefined where no volume so found is allowed.
 * @param volume mL that it has now
 * @param times how many times the limit its strength is
 */
export function volumeThatFits(volume: Exact, times: Exact, fits: Fits): string | undefined {
  const now = volume.plain();
  const needed = now.times(times.plain());
  const rounded = needed.upTo(needed.isBelow(ten) ? tenth : Exact.one);
  return fits(now.over(rounded)) ? ml(rounded) : undefined;
}

const [minute, hour] = [findUnit("min").unit!, findUnit("h").unit!];
const [three, sixty] = [Exact.of(3), Exact.of(60)];

/**
 * The time over which it is given; undefined where no time so found is allowed.
 * @param hours of giving now
 * @param times how many times the limit its rate is; below one where it is too slow
 */
export function timeThatFits(hours: Exact, times: Exact, fits: Fits): string | undefined {
  const now = hours.plain();
  const needed = now.times(times.plain());
  const isLong = needed.isAtLeast(three);
  const step = isLong ? tenth : Exact.one;
  const exact = isLong ? needed : needed.times(sixty);
  const rounded = times.plain().isAbove(Exact.one) ? exact.upTo(step) : exact.downTo(step);
  const hoursThen = isLong ? rounded : rounded.over(sixty);
  if (!rounded.isPositive() || !fits(now.over(hoursThen))) return undefined;
  const isWholeHours = hoursThen.isWhole();
  return showQuantity(isLong || isWholeHours ? { value: hoursThen, unit: hour } : { value: rounded, unit: minute });
}
