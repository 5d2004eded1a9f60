/** How a step asks for an ordered dose: `dose`, `rest of dose`; where several are meant, `dose of vancomycin`, `rest of vancomycin`. */
import type { NameSlot, Spot } from "../model/slots.ts";
import type { OrderedDose } from "./order-rows.ts";

export interface DoseSlots {
  figure?: { choice: string } & Partial<Spot>;
  /** The drug whose dose is meant. */
  drug?: NameSlot;
}

/** The whole dose, or what steps before have left of it. */
export function asksForDose(slots: DoseSlots): boolean {
  return slots.figure?.choice === "dose" || isRest(slots);
}

/** What steps before have left of the dose. */
export function isRest({ figure }: DoseSlots): boolean {
  return figure?.choice === "rest of dose" || figure?.choice === "rest";
}

/** The ordered doses that a step can mean which takes from a container with these drugs. */
export function dosesMeant<D extends Pick<OrderedDose, "drug">>(
  { drug: named }: DoseSlots,
  drugs: readonly string[],
  doses: readonly D[],
): D[] {
  return doses.filter(({ drug }) => (named ? drug === named.name : drugs.includes(drug)));
}

/** `dose of vancomycin`, `rest of vancomycin`, `rest of dose`. */
export function doseWords({ figure, drug }: DoseSlots): string {
  return `${figure?.choice ?? ""}${drug ? ` of ${drug.name}` : ""}`;
}
