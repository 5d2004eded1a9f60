/** The figures that a fact states, whatever slots its form has. */
import type { Fact } from "../model/facts.ts";
import type { BoundSlot, MeasureSlot, RangeSlot } from "../model/slots.ts";

export function measuresOf(fact: Fact): MeasureSlot[] {
  return Object.values(fact.slots as Record<string, unknown>).flatMap((slot) => {
    if (typeof slot !== "object" || slot === null) return [];
    if ("isRange" in slot) return [(slot as RangeSlot).from, (slot as RangeSlot).to];
    if ("low" in slot || "high" in slot) {
      const { low, high } = slot as BoundSlot;
      return [low, high].flatMap((end) => end?.measure ?? []);
    }
    return "quantity" in slot ? [slot as MeasureSlot] : [];
  });
}
