/**
 * Charges of ions that have just one, as chemistry knows them like atomic weights, so that mmol stated of a fluid can be shown in
 * mEq too. Only for showing what a container holds: what an order asks in mEq is turned by declared charges alone. Phosphate,
 * citrate and their like are absent on purpose: they have no single charge, so no mEq.
 */
import { Exact } from "./exact.ts";

const charges: Readonly<Record<string, number>> = {
  sodium: 1,
  potassium: 1,
  chloride: 1,
  acetate: 1,
  lactate: 1,
  bicarbonate: 1,
  gluconate: 1,
  calcium: 2,
  magnesium: 2,
  sulfate: 2,
  zinc: 2,
};

/** Charges without their sign; undefined where the ion is not known or has no single one. */
export function usualCharge(ion: string): Exact | undefined {
  const charge = Object.hasOwn(charges, ion) ? charges[ion] : undefined;
  return charge === undefined ? undefined : Exact.of(charge);
}
