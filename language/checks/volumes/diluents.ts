/** The diluents that an order parts its volume into, and what of them reaches a container. */
import { holds } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";

interface Ordered {
  fluid: string;
  /** mL; undefined where the order states none. */
  wanted: Exact | undefined;
  at: Spot;
}

/** The diluents that the order parts its volume into; one alone, without a volume, is judged by what else reaches the container. */
export function orderedFluids({ recipe, point, doses }: Run): Ordered[] {
  const rows = (recipe.order?.all("diluent") ?? []).filter(({ when }) => !when || holds(when, point, doses) === true);
  const found: Ordered[] = [];
  for (const { slots, start, end } of rows) {
    const { quantity } = slots.volume ?? {};
    const wanted = quantity?.unit.dimension.key === "volume" ? inBase(quantity) : undefined;
    if (slots.volume && !wanted) continue;
    const same = found.find((each) => each.fluid === slots.fluid.name);
    if (!same) found.push({ fluid: slots.fluid.name, wanted, at: { start, end } });
    else if (wanted) same.wanted = same.wanted?.plus(wanted) ?? wanted;
  }
  return rows.length > 1 ? found : found.filter(({ wanted }) => wanted !== undefined);
}

/** mL of a fluid in the container, without what dissolved a powder. */
export function broughtOf(fluid: string, vessel: Vessel, run: Run): Exact {
  const held = vessel.liquid.fluids.get(fluid) ?? Exact.zero;
  const intoPowder = run.steps
    .flatMap((step) => step.movements)
    .filter(({ to }) => to?.stock?.facts.one("content") !== undefined)
    .reduce((sum, { liquid }) => sum.plus(liquid.fluids.get(fluid) ?? Exact.zero), Exact.zero);
  return held.isAbove(intoPowder) ? held.minus(intoPowder) : held;
}

/** mL of diluents that are ordered and not there; below zero where there is more. */
export function missingOf(vessel: Vessel, run: Run): Exact {
  return orderedFluids(run).reduce(
    (sum, { fluid, wanted }) => (wanted ? sum.plus(wanted).minus(broughtOf(fluid, vessel, run)) : sum),
    Exact.zero,
  );
}
