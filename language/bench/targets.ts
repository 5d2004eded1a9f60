/** Amounts of an ion that an order wants over all its sources, and what a finished container holds of it. */
import type { Recipe } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { usualCharge } from "../quantities/ion-charges.ts";
import type { Ion } from "../quantities/substance.ts";
import { ionSetFree, isRefusal, kindUnits } from "./amounts.ts";
import type { AmountKind } from "./liquid.ts";
import { doseFrom } from "./order.ts";
import type { OrderedDose, OrderPoint } from "./order-rows.ts";
import type { Run } from "./run.ts";
import type { Vessel } from "./things.ts";

/** The targets of an order at a point; `drug` is the ion. */
export function orderedTargets(recipe: Recipe, point: OrderPoint): OrderedDose[] {
  return (recipe.order?.all("target") ?? []).map(({ slots, start, end }) =>
    doseFrom(slots.ion.name, slots.dose, slots, { start, end }, point),
  );
}

export interface IonSum {
  /** In the base unit of the kind asked for. */
  total: Exact;
  /** Each source with its part, for the message. */
  parts: { source: string; amount: Exact }[];
  /** Sources that hold some of it, nobody knows how much: why. */
  unknown: string[];
}

/**
 * All of an ion in a vessel: what stocks and fluids say they contain, and what drugs set free.
 * @param kind moles, equivalents or mass
 */
export function ionIn(vessel: Vessel, ion: string, kind: AmountKind, run: Run): IonSum {
  const sum: IonSum = { total: Exact.zero, parts: [], unknown: [] };
  const take = (source: string, amount: Exact) => {
    if (amount.isZero()) return;
    sum.total = sum.total.plus(amount);
    sum.parts.push({ source, amount });
  };
  const charge = [...run.setup.drugs.values()].flatMap((d) => d.substance.ions).find((i) => i.name === ion)?.charge;
  for (const [name, held] of vessel.liquid.amounts) {
    const drug = run.setup.drugs.get(name);
    const from = run.setup.kinds.get(name);
    if (!from) continue;
    if (!drug && (name === ion || name === `${ion} (${from})`)) {
      const turned = between(held, from, kind, charge);
      if (turned) take("stated contents", turned);
      else
        sum.unknown.push(
          `its ${from === "moles" ? "mmol" : from === "equivalents" ? "mEq" : "mass"} cannot be turned into ${kindUnits[kind].spelling}`,
        );
    }
    if (!drug || containsSays(name, ion, run)) continue;
    const own = drug.substance.ions.find((i) => i.name === ion);
    // Potassium chloride without its ions brings potassium all the same. Of units of activity it is too little to count.
    if (!own && from !== "activity" && held.isPositive() && name.split("-").includes(ion))
      sum.unknown.push(`${name} is called after it, and neither the drug nor its stock says how much it brings`);
    if (!own) continue;
    const amount = ionSetFree(held, from, kind, drug.substance, own);
    if (isRefusal(amount)) sum.unknown.push(amount.reason.replace(/\.$/, ""));
    else take(name, amount);
  }
  return sum;
}

/**
 * All of an ion in a vessel as one figure; mmol that a label states are mEq by the charge that chemistry knows of the ion, and the other
 * way about. Undefined where some of it is not known, or nothing in the vessel is known to bring any.
 */
export function ionHeld(vessel: Vessel, ion: string, kind: AmountKind, run: Run): Exact | undefined {
  const held = (as: AmountKind) => {
    const { total, unknown, parts } = ionIn(vessel, ion, as, run);
    return unknown.length === 0 && parts.length > 0 ? total : undefined;
  };
  const charge = usualCharge(ion);
  const asStated = held(kind);
  if (asStated || !charge) return asStated;
  if (kind === "equivalents") return held("moles")?.times(charge);
  return kind === "moles" ? held("equivalents")?.over(charge) : undefined;
}

/** Whether a drug brings an ion, by its formula or by what its stock is labelled with. */
export function brings(drug: string, ion: string, run: Run): boolean {
  return (
    containsSays(drug, ion, run) || run.setup.drugs.get(drug)?.substance.ions.some(({ name }) => name === ion) === true
  );
}

/** Where the stock of a drug says itself how much of the ion it contains, the drug's formula is not counted on top of it. */
function containsSays(drug: string, ion: string, run: Run): boolean {
  return [...run.groups.values()].some(
    ({ item }) =>
      item?.kind === "stock" &&
      item.facts.one("drug")?.slots.drug.name === drug &&
      item.facts.all("contains").some((f) => f.slots.what.name === ion),
  );
}

function between(held: Exact, from: AmountKind, to: AmountKind, charge: Ion["charge"] | undefined): Exact | undefined {
  if (from === to) return held;
  const size = charge === undefined || charge === 0 ? undefined : Exact.of(Math.abs(charge));
  if (from === "moles" && to === "equivalents" && size) return held.times(size);
  if (from === "equivalents" && to === "moles" && size) return held.over(size);
  return undefined;
}
