/** The diluents that an order parts its volume into, and what of them reaches a container. */

import { orderedDiluentVolume } from "../../bench/order.ts";
import { holds } from "../../bench/order-rows.ts";
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

/**
 * The diluents that the order parts its volume into; one alone, without a volume, is judged by what else reaches the container. Of several
 * one may state none: it makes up to `diluent-volume` or `final-volume`, of which the latter is laid against the container.
 */
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
  const [open, second] = found.filter(({ wanted }) => wanted === undefined);
  const all = volumeOf(orderedDiluentVolume(recipe, point, doses));
  if (found.length > 1 && open && !second && all) {
    const stated = found.reduce((sum, { wanted }) => (wanted ? sum.plus(wanted) : sum), Exact.zero);
    if (all.isAbove(stated)) open.wanted = all.minus(stated);
  }
  return rows.length > 1 ? found : found.filter(({ wanted }) => wanted !== undefined);
}

/** mL of a fluid in the container, without what dissolved a powder. */
export function broughtOf(fluid: string, vessel: Vessel, run: Run): Exact {
  const held = vessel.liquid.fluids.get(fluid) ?? Exact.zero;
  const dissolved = cameWithPowder(fluid, vessel, run);
  return held.isAbove(dissolved) ? held.minus(dissolved) : held;
}

/**
 * mL of a fluid that dissolved a powder and came into the container with the drug, by how much of the drug is there: of 9.4 mL in a vial
 * of 1 g, 0.0188 mL come with 2 mg, and more of it was added as a diluent. All that went into powders where no vial of that drug is known
 * to have been dissolved.
 */
export function cameWithPowder(fluid: string, { liquid }: Vessel, run: Run): Exact {
  const each = dissolvedWith(fluid, run);
  const known = [...liquid.amounts].filter(([drug]) => each.has(drug));
  if (known.length === 0) return intoPowder(run, fluid);
  return known.reduce((sum, [drug, held]) => sum.plus(held.times(each.get(drug)!)), Exact.zero);
}

/** The most mL of the fluid to a unit of each drug that a dissolved powder held. */
function dissolvedWith(fluid: string, { steps }: Run): ReadonlyMap<string, Exact> {
  const found = new Map<string, Exact>();
  for (const { after } of steps) {
    for (const [vessel, { amounts, fluids }] of after) {
      const volume = fluids.get(fluid);
      if (!volume?.isPositive() || vessel.stock?.facts.one("content") === undefined) continue;
      // Its own drug alone: the ions of the fluid are in every other drop of it too.
      const drug = vessel.stock.facts.one("drug")?.slots.drug.name ?? "";
      const amount = amounts.get(drug);
      if (!amount?.isPositive()) continue;
      const share = volume.over(amount);
      const known = found.get(drug);
      if (!known || share.isAbove(known)) found.set(drug, share);
    }
  }
  return found;
}

/** mL of a fluid that went into powder containers. */
function intoPowder(run: Run, fluid: string): Exact {
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
