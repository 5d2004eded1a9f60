/** The diluents that an order parts its volume into, and what of them reaches a container. */
import { holds } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { volumeOf } from "../../quantities/quantity.ts";

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
    const wanted = volumeOf(slots.volume?.quantity);
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
  const dissolved = intoPowder(run, fluid);
  return held.isAbove(dissolved) ? held.minus(dissolved) : held;
}

/** mL of a fluid that went into powder containers. */
export function intoPowder(run: Run, fluid: string): Exact {
  let sum = Exact.zero;
  for (const { movements } of run.steps) {
    for (const { to, liquid } of movements) {
      if (to?.stock?.facts.one("content") === undefined) continue;
      sum = sum.plus(liquid.fluids.get(fluid) ?? Exact.zero);
    }
  }
  return sum;
}

/** mL of diluents that are ordered and not there; below zero where there is more. */
export function missingOf(vessel: Vessel, run: Run): Exact {
  return orderedFluids(run).reduce(
    (sum, { fluid, wanted }) => (wanted ? sum.plus(wanted).minus(broughtOf(fluid, vessel, run)) : sum),
    Exact.zero,
  );
}
