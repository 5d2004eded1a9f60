/** Filters on the giving set: what the order says, and the sets that the steps connect. */
import type { Run } from "../../bench/run.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";

export interface LineFilter {
  at: Spot;
  /** `the order`, or the name of the set. */
  said: string;
  pore: MeasureSlot;
}

export function lineFilters(recipe: Recipe, run: Run): LineFilter[] {
  const ordered = recipe.order?.one("in-line-filter")?.slots.pore;
  const found: LineFilter[] = ordered ? [{ at: ordered, said: "the order", pore: ordered }] : [];
  for (const { things, material } of run.groups.values()) {
    for (const thing of things) {
      if (thing.is !== "part" || thing.kind !== "tubing" || !thing.on || !run.finals.includes(thing.on)) continue;
      const pore = thing.device.facts.one("pore")?.slots.pore;
      if (pore) found.push({ at: material.item, said: thing.name, pore });
    }
  }
  return found;
}

/** Drugs that end in a finished container. */
export function givenDrugs(run: Run): Drug[] {
  const names = new Set(run.finals.flatMap((vessel) => vessel.liquid.drugs));
  return [...names].flatMap((name) => run.setup.drugs.get(name) ?? []);
}
