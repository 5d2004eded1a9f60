/** The lines of an order that round and bound the dose, in the form of the drug that the dose itself counts. */
import type { Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { inForm, isRefusal } from "./amounts.ts";
import { type OrderedDose, type OrderPoint, rowAt } from "./order-rows.ts";

export type DoseRule = "round" | "maximum" | "minimum";

/**
 * The step or the limit that holds for this patient. Where it names another form (salt or base) than the dose, its quantity is that of the
 * dose's form, and undefined where the drug does not declare one of the two.
 */
export function doseRule(
  word: DoseRule,
  { order }: Recipe,
  point: OrderPoint,
  dose: Pick<OrderedDose, "drug" | "as"> | undefined,
  lookup: Pick<Lookup, "find">,
): MeasureSlot | undefined {
  const patient = { point, doses: [] };
  const slots = word === "round" ? undefined : rowAt(order?.all(word), patient)?.slots;
  const step = word === "round" ? rowAt(order?.all("round"), patient)?.slots : undefined;
  const [stated, salt] = step ? [step.step, step.salt] : [slots?.limit, slots?.salt];
  if (!stated || !salt || salt.name === dose?.as) return stated;
  const written = `${stated.written} as ${salt.name}`;
  const substance = dose && lookup.find("drug", dose.drug)?.substance;
  const quantity = substance && stated.quantity && inForm(stated.quantity, substance, salt.name, dose.as);
  return { ...stated, written, quantity: quantity && !isRefusal(quantity) ? quantity : undefined };
}
