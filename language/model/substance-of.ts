/** What conversions need to know of a drug, taken from its facts. A formula that cannot be read gives no molar mass; a check says so. */

import { Exact } from "../quantities/exact.ts";
import { molarMass } from "../quantities/formula.ts";
import { inBase } from "../quantities/quantity.ts";
import type { Substance } from "../quantities/substance.ts";
import type { drugFacts } from "./declarations/drug.ts";
import type { Facts } from "./facts.ts";

export function substanceOf(name: string, facts: Facts<typeof drugFacts>): Substance {
  const formula = facts.one("formula")?.slots.text.text;
  const mass = formula === undefined ? undefined : molarMass(formula);
  const density = facts.one("density")?.slots.density.quantity;
  const substance: Substance = { name, ions: [], salts: [] };
  if (mass instanceof Exact) substance.molarMass = mass;
  const base = facts.one("counted-as")?.slots.base.name;
  if (base !== undefined) substance.base = base;
  if (density) substance.density = inBase(density);
  for (const { slots } of facts.all("ion")) {
    const charge = slots.charge.value;
    const count = slots.count ? slots.count.value : Exact.one;
    if (!charge?.isWhole() || !count?.isWhole()) continue;
    substance.ions.push({ name: slots.ion.name, charge: Number(charge.toText()), perFormula: Number(count.toText()) });
  }
  for (const { slots } of facts.all("salt")) {
    if (!slots.mass.quantity || !slots.base.quantity) continue;
    substance.salts.push({
      name: slots.salt.name,
      mass: inBase(slots.mass.quantity),
      forBase: inBase(slots.base.quantity),
    });
  }
  return substance;
}
