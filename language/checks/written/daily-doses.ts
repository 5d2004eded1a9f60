/** `15 mg/kg/day`, `30 mg daily`: what is given in a day, of a container that is given in less. It is no rate; it tells how many are given. */

import { rowAt } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import type { NeededRates } from "./drug-rates.ts";

/** How often in a day doses are given (common practice, from memory). */
const timesADay = [1, 2, 3, 4, 6, 8, 12, 24].map((times) => Exact.of(times));
const hoursInDay = Exact.of(24);
/** As print rounds. */
const near = Exact.of("0.05");

export function isDaily({ unit }: Quantity): boolean {
  return unit.spelling.endsWith("/day");
}

/** Given in less than a day, and at no rate that lasts: then a figure for a day is that of all doses. */
export function isGivenInDoses({ order }: Recipe, runs: readonly Run[]): boolean {
  if (!order || order.one("infuse-at") || order.one("use")?.slots.use.choice === "titrated") return false;
  if (order.all("dose").some(({ slots }) => slots.time)) return false;
  return runs.every((run) => {
    const hours = hoursOfGiving(rowAt(order.all("infuse-over"), run)?.slots.time.quantity);
    return !hours || hours.isBelow(hoursInDay);
  });
}

/**
 * Whether so many whole containers a day give the figure, in one of the ways in which it may be counted.
 * @param possible mL/h that give it
 */
export function isWholeDoses(possible: readonly Pick<NeededRates, "vessel" | "needed">[]): boolean {
  return possible.some(({ vessel, needed }) =>
    needed.some((rate) => {
      const containers = rate.times(hoursInDay).over(vessel.liquid.volume);
      return timesADay.some((times) => containers.minus(times).abs().isAtMost(times.times(near)));
    }),
  );
}

/** `15 mg per syringe`: what the day's figure is not made up of. */
export function dosesInWords(runs: readonly Run[]): string {
  const texts = runs.flatMap(({ doses, point }) =>
    doses.flatMap(({ given, per }) => {
      const weight = point.get("weight");
      if (!given || !("container" in per)) return [];
      return `${showQuantity(given)} per ${per.container}${weight ? ` for ${showQuantity(weight)}` : ""}`;
    }),
  );
  return [...new Set(texts)].join(" and ");
}
