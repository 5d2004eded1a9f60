/** A dose beside the windows that its drug declares for the route of the order. */
import { amountOf, inForm, isRefusal, kindOf, kindUnits } from "../../bench/amounts.ts";
import { holds, type OrderedDose, type OrderPoint, within } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { BoundSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { asBodyWeight, inBase, over, type Quantity } from "../../quantities/quantity.ts";
import { isSameRoute } from "../limits/route-words.ts";

export interface JudgedDose {
  dose: OrderedDose;
  given: Quantity;
  drug: Drug;
  windows: {
    window: BoundSlot;
    /** The form of the drug that the window counts, where it says one: value and shown are of that. */
    as?: string | undefined;
    /** The dose as the window measures it; undefined where it cannot be brought to that. */
    value: Quantity | undefined;
    /** The dose as it is said: what is given, or what is ordered for each kg or m2. */
    shown: Quantity;
    /** Undefined where the two cannot be compared. */
    fits: boolean | undefined;
  }[];
}

/**
 * Doses of drugs that declare a window. Of rows that measure alike (amounts, amounts per kg) those for the route of the order go
 * before those for any route: a limit per kg does not lift the limit of the whole dose.
 */
export function judgedDoses({ doses, point, recipe, policy }: Run, lookup: Lookup): JudgedDose[] {
  return judgedAt(recipe, point, doses, policy.tolerance.dose, (name) => lookup.find("drug", name));
}

/**
 * The same of doses that no run has to give.
 * @param tolerance how far a result may lie from the order here, as a share of it
 */
export function judgedAt(
  recipe: Recipe,
  point: OrderPoint,
  doses: readonly OrderedDose[],
  tolerance: Exact,
  drugOf: (name: string) => Drug | undefined,
): JudgedDose[] {
  const route = recipe.order?.one("route")?.slots.route.name ?? "";
  const atOnce = recipe.order?.one("use")?.slots.use.choice === "bolus";
  return doses.flatMap((dose) => {
    const drug = drugOf(dose.drug);
    const { given } = dose;
    // What a reservoir holds is no dose: nobody gets it at once. What a syringe holds for one push is.
    if (!drug || !given || (dose.byConcentration && !atOnce)) return [];
    const rows = drug.facts
      .all("dose")
      .filter(({ slots, when }) => !slots.ion && (!when || holds(when, point, doses) !== false));
    const own = rows.filter(({ slots }) => slots.route && isSameRoute(slots.route.name, route));
    const measured = (row: (typeof rows)[number]) => limitOf(row.slots.limits)?.unit.dimension;
    const chosen = [
      ...own,
      ...rows.filter((row) => !row.slots.route && !own.some((o) => measured(o) === measured(row))),
    ];
    const windows = chosen.map(({ slots: { limits: window, salt } }) => {
      const as = salt?.name;
      const value = comparable(dose, given, window, as, drug, point);
      const shown = asCounted(given, dose, as, drug) ?? given;
      const judged = { window, as, value, shown, fits: value && within(value, window) };
      // A cap would hide ten times too much per kg: what is ordered per kg is laid against a limit per kg as it is written.
      const stated = dose.measure.quantity && asCounted(dose.measure.quantity, dose, as, drug);
      if (!stated || stated.unit.dimension !== limitOf(window)?.unit.dimension || !isPerPatient(stated)) return judged;
      const fits = within(stated, window);
      if (fits === false) return { window, as, value: stated, shown: stated, fits };
      return fits && judged.fits === false && isOnlyRounded(dose, tolerance) ? { ...judged, fits } : judged;
    });
    return windows.length > 0 ? [{ dose, given, drug, windows }] : [];
  });
}

/** Some kind of window has no row that the dose fits. */
export function isOutside({ windows }: JudgedDose): boolean {
  return windows.some(
    ({ value }) =>
      value !== undefined &&
      windows.filter((w) => w.value?.unit.dimension === value.unit.dimension).every(({ fits }) => fits === false),
  );
}

/** Between how many times and how many times the dose lies what every kind of window lets pass; `most` undefined where nothing bounds it. */
export function factorsInto({ windows }: JudgedDose): { least: Exact; most: Exact | undefined } {
  let least = Exact.zero;
  let most: Exact | undefined;
  const dimensions = new Set(windows.flatMap(({ value }) => (value?.value.isPositive() ? [value.unit.dimension] : [])));
  for (const dimension of dimensions) {
    const alike = windows.filter(({ value }) => value?.unit.dimension === dimension);
    const lows = alike.map(({ value, window }) => endOver(value!, window.low?.measure.quantity) ?? Exact.zero);
    const highs = alike.map(({ value, window }) => endOver(value!, window.high?.measure.quantity));
    least = Exact.greatest(
      least,
      lows.reduce((a, b) => Exact.least(a, b)),
    );
    const high = highs.reduce((a, b) => a && b && Exact.greatest(a, b));
    if (high) most = most ? Exact.least(most, high) : high;
  }
  return { least, most };
}

function endOver(value: Quantity, end: Quantity | undefined): Exact | undefined {
  return end && end.unit.dimension === value.unit.dimension ? inBase(end).over(inBase(value)) : undefined;
}

/** 20 mg/kg of 52 kg are 1,040 mg and given as 1,050 mg: what is ordered is within the limit, and rounding moves it no further than a draw may. */
function isOnlyRounded({ rounding, given }: OrderedDose, tolerance: Exact): boolean {
  if (!rounding || rounding.to !== given) return false;
  const [before, after] = [inBase(rounding.from), inBase(rounding.to)];
  const allowed = before.times(tolerance);
  return after.isAtMost(before.plus(allowed)) && after.isAtLeast(before.minus(allowed));
}

/** `25 mg/kg`, `1.4 mg/m2`. */
function isPerPatient({ unit }: Quantity): boolean {
  return unit.parts.some(({ row, power }) => power < 0 && (row.axis === "bodyWeight" || row.axis === "area"));
}

/** An amount counted as the drug is, an amount per kg, or an amount per m2. */
function comparable(
  dose: OrderedDose,
  given: Quantity,
  window: BoundSlot,
  as: string | undefined,
  drug: Drug,
  point: Run["point"],
): Quantity | undefined {
  const limit = limitOf(window);
  if (!limit) return undefined;
  const weight = point.get("weight");
  const perWeight = weight && asBodyWeight(weight);
  const surface = point.get("body-surface");
  const counted = inUnitOf(dose, given, limit, as, drug);
  const plain = asCounted(given, dose, as, drug);
  if (!plain) return undefined;
  const ways = [counted, perWeight && over(plain, perWeight), surface && over(plain, surface), plain];
  return ways.find((way) => way?.unit.dimension === limit.unit.dimension);
}

/** In the form that the window counts; undefined where the drug does not declare one of the two. */
function asCounted(
  figure: Quantity,
  { as, ion }: OrderedDose,
  to: string | undefined,
  { substance }: Drug,
): Quantity | undefined {
  const turned = ion === undefined ? inForm(figure, substance, as, to) : figure;
  return isRefusal(turned) ? undefined : turned;
}

/** In the unit and the form (salt or base) that the window counts. */
function inUnitOf(
  { as, ion }: OrderedDose,
  given: Quantity,
  limit: Quantity,
  to: string | undefined,
  drug: Drug,
): Quantity | undefined {
  const kind = kindOf(limit);
  if (!kind || kindUnits[kind].dimension !== limit.unit.dimension) return undefined;
  const amount = amountOf(given, kind, drug.substance, as, ion);
  const counted = isRefusal(amount)
    ? amount
    : inForm({ value: amount, unit: kindUnits[kind] }, drug.substance, undefined, to);
  return isRefusal(counted) ? undefined : counted;
}

export function limitOf(window: BoundSlot): Quantity | undefined {
  return (window.low ?? window.high)?.measure.quantity;
}

/** `from 500 mg up to 10 g`, `up to 10 mg as morphine-hydrochloride`. */
export function windowText({ low, high }: BoundSlot, as?: string): string {
  const from = low && `${low.included ? "from" : "above"} ${low.measure.written}`;
  const to = high && `${high.included ? "up to" : "below"} ${high.measure.written}`;
  return `${[from, to].filter(Boolean).join(" ")}${as === undefined ? "" : ` as ${as}`}`;
}
