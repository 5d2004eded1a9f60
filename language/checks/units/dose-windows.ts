/** A dose beside the windows that its drug declares for the route of the order. */
import { amountOf, isRefusal, kindOf, kindUnits } from "../../bench/amounts.ts";
import { holds, type OrderedDose, within } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import type { Drug } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { BoundSlot } from "../../model/slots.ts";
import { asBodyWeight, over, type Quantity } from "../../quantities/quantity.ts";

export interface JudgedDose {
  dose: OrderedDose;
  given: Quantity;
  drug: Drug;
  windows: {
    window: BoundSlot;
    /** The dose as the window measures it; undefined where it cannot be brought to that. */
    value: Quantity | undefined;
    /** Undefined where the two cannot be compared. */
    fits: boolean | undefined;
  }[];
}

/** Doses of drugs that declare a window; rows for the route of the order go before those for any route. */
export function judgedDoses({ doses, point, recipe }: Run, lookup: Lookup): JudgedDose[] {
  const route = recipe.order?.one("route")?.slots.route.name;
  return doses.flatMap((dose) => {
    const drug = lookup.find("drug", dose.drug);
    const { given } = dose;
    // What a reservoir holds is no dose: nobody gets it at once.
    if (!drug || !given || dose.byConcentration) return [];
    const rows = drug.facts.all("dose").filter(({ when }) => !when || holds(when, point, doses) !== false);
    const own = rows.filter(({ slots }) => slots.route && slots.route.name === route);
    const chosen = own.length > 0 ? own : rows.filter(({ slots }) => !slots.route);
    const windows = chosen.map(({ slots: { limits: window } }) => {
      const value = comparable(dose, given, window, drug, point);
      return { window, value, fits: value && within(value, window) };
    });
    return windows.length > 0 ? [{ dose, given, drug, windows }] : [];
  });
}

/** An amount counted as the drug is, an amount per kg, or an amount per m2. */
function comparable(
  dose: OrderedDose,
  given: Quantity,
  window: BoundSlot,
  drug: Drug,
  point: Run["point"],
): Quantity | undefined {
  const limit = limitOf(window);
  if (!limit) return undefined;
  const weight = point.get("weight");
  const perWeight = weight && asBodyWeight(weight);
  const surface = point.get("body-surface");
  const counted = inUnitOf(dose, given, limit, drug);
  const ways = [counted, perWeight && over(given, perWeight), surface && over(given, surface), given];
  return ways.find((way) => way?.unit.dimension === limit.unit.dimension);
}

/** In the unit and the form (salt or base) that the window counts. */
function inUnitOf({ as, ion }: OrderedDose, given: Quantity, limit: Quantity, drug: Drug): Quantity | undefined {
  const kind = kindOf(limit);
  if (!kind || kindUnits[kind].dimension !== limit.unit.dimension) return undefined;
  const amount = amountOf(given, kind, drug.substance, as, ion);
  return isRefusal(amount) ? undefined : { value: amount, unit: kindUnits[kind] };
}

function limitOf(window: BoundSlot): Quantity | undefined {
  return (window.low ?? window.high)?.measure.quantity;
}

/** `from 500 mg up to 10 g`. */
export function windowText({ low, high }: BoundSlot): string {
  const from = low && `${low.included ? "from" : "above"} ${low.measure.written}`;
  const to = high && `${high.included ? "up to" : "below"} ${high.measure.written}`;
  return [from, to].filter(Boolean).join(" ");
}
