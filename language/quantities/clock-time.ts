/** Times as a clock or a watch is read, `4h30`, `1 h 20 min`, in one unit. */
import { Exact } from "./exact.ts";
import { inBase, type Quantity, showQuantity } from "./quantity.ts";
import { findUnit } from "./unit.ts";

const hour = findUnit("h").unit!;
const minute = findUnit("min").unit!;

/** Behind hours these are minutes; m alone is no unit. */
const minutes = /^(?:m|min|mins|minutes?|'|′)?$/;

/** `4.5 h`; `260 min` where hours would not end after two places. Undefined where the parts are no hours and minutes. */
export function timeInOneUnit(hours: Quantity, number: string, unit: string): string | undefined {
  const isHours = hours.unit.dimension === hour.dimension && hours.unit.factor.equals(hour.factor);
  if (!isHours || !minutes.test(unit) || !/^[0-5]?\d$/.test(number)) return undefined;
  const sum = inBase(hours).plus(inBase({ value: Exact.of(number), unit: minute }));
  const places = sum.decimalPlaces();
  const isShort = places !== undefined && places <= 2;
  return showQuantity(isShort ? { value: sum, unit: hour } : { value: sum.over(minute.factor), unit: minute });
}

/** `h30`, `h30m`, `hr30min`: what stands behind the hours of `4h30`, as one word; undefined where it is nothing of the kind. */
export function timeRunTogether(number: string, word: string): string | undefined {
  const [, minutesNumber, unit] = /^(?:h|hr|hrs|hours?)(\d{1,2})([a-z']*)$/.exec(word) ?? [];
  if (minutesNumber === undefined || !/^\d+$/.test(number)) return undefined;
  return timeInOneUnit({ value: Exact.of(number), unit: hour }, minutesNumber, unit ?? "");
}
