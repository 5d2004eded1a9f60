/**
 * Amounts of a drug in the one unit its liquid is kept in. A drug with a formula or a mass strength is kept as mass, of the
 * form it is counted as (base, or the salt where none is declared); activity stays activity.
 */

import type { Drug } from "../model/declaration.ts";
import { atomicWeights } from "../quantities/atomic-weights.ts";
import { Exact } from "../quantities/exact.ts";
import { ionElement } from "../quantities/ion-elements.ts";
import { inBase, type Quantity, type Refusal, showQuantity } from "../quantities/quantity.ts";
import { refuse } from "../quantities/refusal.ts";
import { convert, type Ion, type Substance } from "../quantities/substance.ts";
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

/** An amount of an ion as the amount of the drug that holds it: a mass by the ion's atomic weight, mmol by how many a formula unit has. */
function ofIon(quantity: Quantity, kind: AmountKind, substance: Substance, name: string): Quantity | Refusal {
  const ion = substance.ions.find((each) => each.name === name);
  if (!ion) {
    return refuse(
      "equivalents-need-an-ion",
      `${substance.name} has no ion ${name} among its facts. Declare \`ion ${name}\` with its charge (0 where it has no single one, such as phosphate), or name one that it has.`,
    );
  }
  const counted = kindOf(quantity) === "mass" ? millimolesOf(quantity, name) : quantity;
  if (isRefusal(counted)) return counted;
  const converted = convert(counted, kindUnits[kind], substance, name);
  // What is kept in mmol is kept in mmol of the drug.
  if (isRefusal(converted) || kind !== "moles") return converted;
  return { ...converted, value: converted.value.over(Exact.of(ion.perFormula)) };
}

function millimolesOf(mass: Quantity, ion: string): Quantity | Refusal {
  const grams = gramsPerMillimole(ion);
  return isRefusal(grams) ? grams : { value: inBase(mass).over(grams), unit: kindUnits.moles };
}

function gramsPerMillimole(ion: string): Exact | Refusal {
  const weight = atomicWeights[ionElement(ion)?.symbol ?? ""];
  if (weight !== undefined) return Exact.of(weight).over(Exact.of(1000));
  return refuse(
    "needs-formula",
    `the mass of ${ion} cannot be turned into an amount of the drug, because ${ion} is no single element. State mmol of ${ion}, or the mass of the drug.`,
  );
}

/** How much of an ion so much of a drug sets free, both in the base units of their kinds. */
export function ionSetFree(
  held: Exact,
  from: AmountKind,
  to: AmountKind,
  substance: Substance,
  ion: Ion,
): Exact | Refusal {
  // A mass of the ion is its mmol by the atomic weight; what is kept in mmol is kept in mmol of the drug.
  const counted = to === "mass" ? "moles" : to;
  const value = from === "moles" ? held.times(Exact.of(ion.perFormula)) : held;
  const converted = convert({ value, unit: kindUnits[from] }, kindUnits[counted], substance, ion.name);
  if (isRefusal(converted)) return converted;
  if (to !== "mass") return converted.value;
  const grams = gramsPerMillimole(ion.name);
  return isRefusal(grams) ? grams : converted.value.times(grams);
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
  const converted = same
    ? quantity
    : ion === undefined
      ? convert(quantity, to, substance)
      : ofIon(quantity, kind, substance, ion);
  if (isRefusal(converted)) return converted;
  // Units, international units and pharmacopoeial units are counted alike here; `activity-counted-otherwise` tells that they are mixed.
  const amount = inBase(converted).over(inBase({ value: Exact.one, unit: to }));
  const share = shareOf(quantity, substance, as, ion);
  return isRefusal(share) ? share : amount.times(share);
}

/** Of a mass the share of the form that it counts. An ion and units of activity are the same in every form; of mmol nobody can say. */
function shareOf(
  quantity: Quantity,
  substance: Substance,
  as: string | undefined,
  ion: string | undefined,
): Exact | Refusal {
  const kind = kindOf(quantity);
  if (as === undefined || as === substance.base || ion !== undefined || kind === "activity") return Exact.one;
  const share = baseShare(substance, as);
  if (kind === "mass" || isRefusal(share)) return share;
  return refuse(
    "form-of-no-mass",
    `${as} is declared by its mass, and ${showQuantity(quantity)} is none, so how much ${substance.name} it holds is not known. Write the mass counted as ${as}, or leave \`as ${as}\` out.`,
  );
}

/** A mass of a drug that counts one of its forms, as the mass that another form would count; the other way `undefined` stands for the form that it is counted as. */
export function inForm(
  quantity: Quantity,
  substance: Substance,
  from: string | undefined,
  to: string | undefined,
): Quantity | Refusal {
  if (from === to || kindOf(quantity) !== "mass") return quantity;
  const [own, other] = [baseShare(substance, from), baseShare(substance, to)];
  if (isRefusal(own)) return own;
  return isRefusal(other) ? other : { ...quantity, value: quantity.value.times(own).over(other) };
}

/**
 * A strength (amount in a volume) as amount in base unit of `kind` per mL.
 * @param density g/mL of the liquid itself, by which alone a share by weight says what is in a volume
 */
export function strengthOf(
  strength: Quantity,
  kind: AmountKind,
  substance: Substance,
  as?: string,
  density?: Exact,
): Exact | Refusal {
  const numerator = kindOf(strength);
  if (numerator === undefined) {
    return { refused: true, rule: "different-dimension", reason: `${strength.unit.spelling} is not a strength` };
  }
  const isByWeight = strength.unit.dimension.key === "mass/mass";
  if (isByWeight && !density?.isPositive()) {
    return refuse(
      "needs-density",
      `${strength.unit.spelling} is a share by weight, so that 1 mL holds an amount only by the density of the liquid. Declare \`density\` of the stock in g/mL, or state the strength in mg/mL.`,
    );
  }
  // Split the strength into the amount in one mL, then convert that amount.
  const perMillilitre: Quantity = {
    value: isByWeight ? inBase(strength).times(density!) : inBase(strength),
    unit: kindUnits[numerator],
  };
  return amountOf(perMillilitre, kind, substance, as);
}

/** The kind a drug is kept in, given the first strength or content met. */
export function keptAs(drug: Drug, first: Quantity): AmountKind {
  const kind = kindOf(first) ?? "mass";
  if ((kind === "moles" || kind === "equivalents") && drug.substance.molarMass) return "mass";
  return kind;
}
