/**
 * Two strengths mixed to one between them (alligation alternate). Volumes are taken as adding up, as the trade does; the bench
 * says the same of two liquids poured together.
 */
import { compareQuantities, minus, over, type Quantity, sameDimension, showQuantity, times } from "./quantity.ts";
import { type Refusal, refusalBetween, refuse } from "./refusal.ts";

export interface Alligation {
  /** How much of the higher strength goes in, in the unit of the total. */
  high: Quantity;
  /** How much of the lower strength. */
  low: Quantity;
}

/**
 * How much of each of two strengths makes a total of the strength wanted.
 * @param total volume (for strengths in a volume) or mass (for % w/w)
 * @returns exact amounts, or why there are none: the three strengths must be of one kind, the wanted one between the others
 */
export function alligate(high: Quantity, low: Quantity, wanted: Quantity, total: Quantity): Alligation | Refusal {
  for (const strength of [low, wanted]) {
    if (!sameDimension(high, strength)) return refusalBetween(high.unit, strength.unit);
  }
  if (compareQuantities(high, low) <= 0) {
    return refuse(
      "different-dimension",
      `${showQuantity(high)} is not above ${showQuantity(low)}, so mixing them makes no strength between. Name the higher strength first.`,
    );
  }
  if (compareQuantities(wanted, low) < 0 || compareQuantities(wanted, high) > 0) {
    return refuse(
      "different-dimension",
      `${showQuantity(wanted)} is not between ${showQuantity(low)} and ${showQuantity(high)}, so no mixture of the two has it.`,
    );
  }
  const above = minus(wanted, low);
  const between = minus(high, low);
  if ("refused" in above) return above;
  if ("refused" in between) return between;
  const share = over(above, between);
  const ofHigh = { value: times(total, share).value, unit: total.unit };
  const ofLow = minus(total, ofHigh);
  return "refused" in ofLow ? ofLow : { high: ofHigh, low: ofLow };
}
