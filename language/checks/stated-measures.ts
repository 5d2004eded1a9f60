/** The figures that a fact states, whatever slots its form has. */
import type { Fact } from "../model/facts.ts";
import type { BoundSlot, MeasureSlot, RangeSlot } from "../model/slots.ts";

export function measuresOf(fact: Fact): MeasureSlot[] {
  const found: MeasureSlot[] = [];
  const slots = fact.slots as Record<string, unknown>;
  for (const word in slots) {
    const slot = slots[word];
    if (typeof slot !== "object" || slot === null) continue;
    if ("quantity" in slot) found.push(slot as MeasureSlot);
    else if ("isRange" in slot) found.push((slot as RangeSlot).from, (slot as RangeSlot).to);
    else if ("low" in slot || "high" in slot) {
      const { low, high } = slot as BoundSlot;
      if (low) found.push(low.measure);
      if (high) found.push(high.measure);
    }
  }
  return found;
}
