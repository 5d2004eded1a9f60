/** How much of a dose one finished container must hold: all of it, or the part that is given while it runs. */
import { type OrderedDose, rowAt } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { inBase } from "../../quantities/quantity.ts";

/**
 * 1 for a dose per this container; for a dose per time the time that the container is given over, in parts of it (a container
 * given over 12 h holds half of a dose per 24 h).
 * @returns "other" where the dose is for another container, undefined where the order does not say how long this one runs
 */
export function containerShare({ per }: OrderedDose, vessel: Vessel, run: Run): Exact | "other" | undefined {
  if ("container" in per) return per.container === vessel.name ? Exact.one : "other";
  const period = hoursOfGiving(per.time?.quantity);
  const order = run.recipe.order;
  const over =
    hoursOfGiving(rowAt(order?.all("infuse-over"), run)?.slots.time?.quantity) ??
    atRate(rowAt(order?.all("infuse-at"), run)?.slots.rate, vessel);
  return period && over ? over.over(period) : undefined;
}

function atRate(rate: MeasureSlot | undefined, vessel: Vessel): Exact | undefined {
  const quantity = rate?.quantity;
  if (!quantity?.value.isPositive() || quantity.unit.dimension.key !== "volume/time") return undefined;
  return vessel.liquid.volume.over(inBase(quantity));
}
