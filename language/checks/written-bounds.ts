/** Bounds that are written as a person reads them, and whether a figure lies between them. */
import type { Exact } from "../quantities/exact.ts";
import { hours } from "../quantities/hours.ts";
import { inBase, measure, type Quantity } from "../quantities/quantity.ts";

/** The least and the most, each with its unit: `["0.2 kg", "500 kg"]`. */
export type WrittenBounds = readonly [least: string, most: string];

/** Undefined where the figure measures something else. */
export function isWithin(value: Quantity, [least, most]: WrittenBounds): boolean | undefined {
  const [figure, from, to] = [alike(value), alike(measure(least)), alike(measure(most))];
  if (figure.dimension !== from.dimension) return undefined;
  return figure.value.isAtLeast(from.value) && figure.value.isAtMost(to.value);
}

/** Days and years are laid side by side as hours. */
function alike(quantity: Quantity): { value: Exact; dimension: string } {
  const time = hours(quantity);
  return time
    ? { value: time, dimension: "time" }
    : { value: inBase(quantity), dimension: quantity.unit.dimension.key };
}
