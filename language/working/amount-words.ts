/** Amounts and strengths in the units of the pack, so that a figure on the sheet can be laid beside the label in hand. */
import { isRefusal, kindOf, kindUnits } from "../bench/amounts.ts";
import type { AmountKind, Liquid } from "../bench/liquid.ts";
import type { Run } from "../bench/run.ts";
import type { Stock } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, preferredUnit, type Quantity } from "../quantities/quantity.ts";
import { convert, type Substance } from "../quantities/substance.ts";
import { findUnit, type Unit } from "../quantities/unit.ts";

export function substanceIn(run: Run, drug: string): Substance {
  return run.setup.drugs.get(drug)?.substance ?? { name: drug, ions: [], salts: [] };
}

/** An amount of a drug, kept in the base unit of its kind, in a handy unit. */
export function amountQuantity(value: Exact, kind: AmountKind): Quantity {
  return preferredUnit({ value, unit: kindUnits[kind] });
}

/** The same amount in a wanted unit; in a handy one where that unit does not fit. */
export function amountIn(
  value: Exact,
  kind: AmountKind,
  unit: Unit | undefined,
  of: Substance,
  ion?: string,
): Quantity {
  const kept = { value, unit: kindUnits[kind] };
  if (!unit) return preferredUnit(kept);
  const converted = convert(kept, unit, of, ion);
  return isRefusal(converted) ? preferredUnit(kept) : converted;
}

/** Amount over volume in a wanted unit, such as that of the stated concentration; in the kind's usual one where it does not fit. */
export function concentrationIn(
  held: Exact,
  volume: Exact,
  kind: AmountKind,
  unit: Unit | undefined,
  of: Substance,
  ion?: string,
): Quantity {
  const perMl = { value: held.over(volume), unit: usualStrength[kind] };
  // The kind's base unit per mL is the usual unit, but for mass, where g/mL is said as mg/mL.
  const base = kind === "mass" ? { value: perMl.value, unit: findUnit("g/mL").unit! } : perMl;
  const wanted = unit && kindOf({ value: base.value, unit }) ? convert(base, unit, of, ion) : undefined;
  if (wanted && !isRefusal(wanted)) return wanted;
  const usual = { value: inBase(base).over(usualStrength[kind].factor), unit: usualStrength[kind] };
  // 0.00007153 mg/mL is misread; nobody counts its zeros.
  if (kind === "mass" && usual.value.isBelow(Exact.ratio(1, 10))) return preferredUnit(usual);
  const perLitre = litres[kind];
  if (!perLitre || !usual.value.isBelow(Exact.ratio(1, 100))) return usual;
  return { value: usual.value.times(Exact.of(1000)), unit: perLitre };
}

/** Thin solutions of electrolytes are said by the litre. */
const litres: Partial<Record<AmountKind, Unit>> = {
  moles: findUnit("mmol/L").unit!,
  equivalents: findUnit("mEq/L").unit!,
};

const usualStrength: Readonly<Record<AmountKind, Unit>> = {
  mass: findUnit("mg/mL").unit!,
  moles: findUnit("mmol/mL").unit!,
  equivalents: findUnit("mEq/mL").unit!,
  activity: findUnit("units/mL").unit!,
  volume: findUnit("% v/v").unit!,
};

/** The unit above the line of a stock's own strength or content: `mg` of `500 mg/mL`. */
export function packUnit(stock: Stock | undefined): Unit | undefined {
  const strength = stock?.facts.one("strength")?.slots.strength.quantity;
  const content = stock?.facts.one("content")?.slots.content.quantity;
  if (strength) return findUnit(strength.unit.spelling.split("/")[0] ?? "").unit;
  return content?.unit;
}

/** The drug that a liquid is measured by, where there is just one. */
export function onlyDrug(liquid: Liquid): string | undefined {
  return liquid.drugs.length === 1 ? liquid.drugs[0] : undefined;
}
