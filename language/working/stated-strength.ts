/** The strength of an intermediate in the unit and the form in which its author states it: nobody should convert at the bench. */
import { inForm } from "../bench/amounts.ts";
import type { Run } from "../bench/run.ts";
import { isRefusal, showQuantity, toUnit } from "../quantities/quantity.ts";
import { substanceIn } from "./amount-words.ts";
import type { Content } from "./contents.ts";

/** @param container what it is in; without an intermediate of its own the strength is said as the bench counts it */
export function statedStrength({ drug, concentration }: Content, run: Run, container: string): string {
  const own = run.recipe.intermediates.find((i) => i.facts.one("in")?.slots.container.name === container);
  const rows = own?.facts.all("at") ?? [];
  const stated = rows.find(({ slots }) => (slots.drug ? slots.drug.name === drug : rows.length === 1))?.slots;
  const as = stated?.salt?.name;
  const counted = inForm(concentration, substanceIn(run, drug), undefined, as);
  const unit = stated?.concentration.quantity?.unit;
  const converted = unit && !isRefusal(counted) ? toUnit(counted, unit) : counted;
  if (isRefusal(converted)) return showQuantity(concentration);
  return `${showQuantity(converted)}${as === undefined ? "" : ` as ${as}`}`;
}
