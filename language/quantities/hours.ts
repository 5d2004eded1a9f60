/** Times of several units as hours, so that they can be laid side by side. */
import { Exact } from "./exact.ts";
import { inBase, type Quantity } from "./quantity.ts";

/** At the most, so that a limit of the recipe and a row of a study can be compared; a month has up to 31 days. Undefined for no time. */
export function hours(time: Quantity | undefined, daysInMonth = 31): Exact | undefined {
  if (!time) return undefined;
  const amount = inBase(time);
  switch (time.unit.dimension.key) {
    case "time":
      return amount;
    case "calendarDays":
      return amount.times(Exact.of(24));
    case "calendarMonths":
      return amount.times(Exact.of(24 * daysInMonth));
    default:
      return undefined;
  }
}

/** Of a time that has a fixed number of them: a day of an order counts 24 h, a month has none. */
export function fixedHours(time: Quantity | undefined): Exact | undefined {
  return time?.unit.dimension.key === "calendarMonths" ? undefined : hours(time);
}

/** Over which something is given; undefined where that is not above zero. */
export function hoursOfGiving(time: Quantity | undefined): Exact | undefined {
  return time?.value.isPositive() ? fixedHours(time) : undefined;
}
