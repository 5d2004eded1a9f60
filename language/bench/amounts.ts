/**
 * Amounts of a drug in the one unit its liquid is kept in. A drug with a formula or a mass strength is kept as mass, of the
 * form it is counted as (base, or the salt where none is declared); activity stays activity.
 */

import type { Drug } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, type Refusal } from "../quantities/quantity.ts";
import { refuse } from "../quantities/refusal.ts";
import { convert, type Substance } from "../quantities/substance.ts";
import { findUnit, type Unit } from "../quantities/unit.ts";
import type { AmountKind } from "./liquid.ts";

function unit(text: string): Unit {
  return findUnit(text).unit!;
}

/** Base unit of each kind; what an `Exact` in a liquid is counted in. */
export const kindUnits: Readonly<Record<AmountKind, Unit>> = {
  mass: unit("g"),
  moles: unit("mmol"),
  equivalents: unit("mEq"),
  activity: unit("units"),
  volume: unit("mL"),
};

const kindByNumerator: ReadonlyMap<string, AmountKind> = new Map(
  (["mass", "moles", "equivalents", "activity", "volume"] as const).map((kind) => [kind, kind]),
);

/** By the whole key of a dimension, of which there are few. */
const kinds = new Map<string, AmountKind | undefined>();

/** The kind of amount a quantity speaks of, taken from its numerator: `mg/mL` and `mg` are mass. */
export function kindOf(quantity: Quantity): AmountKind | undefined {
  const { key } = quantity.unit.dimension;
  const known = kinds.get(key);
  if (known !== undefined || kinds.has(key)) return known;
  const kind = kindByNumerator.get(key.split("/")[0]!);
  kinds.set(key, kind);
  return kind;
}

export function isRefusal(value: object): value is Refusal {
  return "refused" in value;
}

/** How much counted form is in one unit mass of what `as` names; 1 where it names nothing or the counted form itself. */
export function baseShare(substance: Substance, as: string | undefined): Exact | Refusal {
  if (as === undefined || as === substance.base) return Exact.one;
  const salt = substance.salts.find((s) => s.name === as);
  if (salt && !salt.mass.isZero()) return salt.forBase.over(salt.mass);
  return refuse(
    "form-not-declared",
    `${as} is no form that ${substance.name} declares, so its mass is not known. Declare \`salt ${as}\` with its mass.`,
  );
}

/**
 * A quantity of a drug in the base unit of `kind`.
 * @param as salt or base that the quantity names; @param ion the ion that mmol or mEq speak of
 * @returns the amount, or why it cannot be computed
 */
export function amountOf(
  quantity: Quantity,
  kind: AmountKind,
  substance: Substance,
  as?: string,
  ion?: string,
): Exact | Refusal {
  const to = kindUnits[kind];
  const same = quantity.unit.dimension === to.dimension && ion === undefined;
  const converted = same ? quantity : convert(quantity, to, substance, ion);
  if (isRefusal(converted)) return converted;
  if (same && quantity.unit.activityKind !== to.activityKind && quantity.unit.activityKind !== undefined) {
    // Units, international units and pharmacopoeial units of one drug are kept apart by the units checks; arithmetic is the same.
  }
  const amount = inBase(converted).over(inBase({ value: Exact.one, unit: to }));
  const share = kind === "mass" ? baseShare(substance, as) : Exact.one;
  return isRefusal(share) ? share : amount.times(share);
}

/** A strength (amount in a volume) as amount in base unit of `kind` per mL. */
export function strengthOf(strength: Quantity, kind: AmountKind, substance: Substance, as?: string): Exact | Refusal {
  const numerator = kindOf(strength);
  if (numerator === undefined) {
    return { refused: true, rule: "different-dimension", reason: `${strength.unit.spelling} is not a strength` };
  }
  // Split the strength into the amount in one mL, then convert that amount.
  const perMillilitre: Quantity = { value: inBase(strength), unit: kindUnits[numerator] };
  return amountOf(perMillilitre, kind, substance, as);
}

/** The kind a drug is kept in, given the first strength or content met. */
export function keptAs(drug: Drug, first: Quantity): AmountKind {
  const kind = kindOf(first) ?? "mass";
  if ((kind === "moles" || kind === "equivalents") && drug.substance.molarMass) return "mass";
  return kind;
}
