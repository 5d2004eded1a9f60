/** The inputs of an order as axes of a range, and points of that range as what the bench is run with. */

import { type InputRange, inputRanges, type OrderInput, pointAt } from "../bench/order.ts";
import { holds, type OrderPoint } from "../bench/order-rows.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import type { Unit } from "../quantities/unit.ts";
import type { Axis } from "./interval.ts";
import { mostInputs } from "./polynomial.ts";

export interface OrderAxis extends Axis {
  input: OrderInput;
  /** The unit in which the values of the axis are counted. */
  unit: Unit;
}

/** One axis for each input that is a range; several rows of one input span them all. */
export function axesOf(recipe: Recipe): OrderAxis[] {
  const byInput = new Map<OrderInput, InputRange[]>();
  for (const row of inputRanges(recipe)) byInput.set(row.input, [...(byInput.get(row.input) ?? []), row]);
  const axes = [...byInput].map(([input, rows]) => axisOf(input, rows)).filter((a) => a !== undefined);
  return axes.slice(0, mostInputs);
}

function axisOf(input: OrderInput, rows: readonly InputRange[]): OrderAxis | undefined {
  const unit = rows[0]!.range.from.quantity?.unit;
  if (!unit) return undefined;
  let low: Exact | undefined;
  let high: Exact | undefined;
  for (const { range } of rows) {
    const [from, to] = [inUnit(range.from.quantity, unit), inUnit(range.to.quantity, unit)];
    if (!from || !to || from.isAbove(to)) return undefined;
    if (!low || from.isBelow(low)) low = from;
    if (!high || to.isAbove(high)) high = to;
  }
  if (!low || !high || low.equals(high)) return undefined;
  return { input, unit, range: { low, high, lowIn: true, highIn: true }, step: stepOf(rows, unit, low) };
}

/** The common step, where all rows have one and begin on it; else every value counts. */
function stepOf(rows: readonly InputRange[], unit: Unit, low: Exact): Exact | undefined {
  const steps = rows.map((r) => inUnit(r.step, unit));
  const [first] = steps;
  if (!first?.isPositive() || !steps.every((s) => s?.equals(first))) return undefined;
  const begins = rows.map((r) => inUnit(r.range.from.quantity, unit));
  return begins.every((b) => b?.minus(low).over(first).isWhole()) ? first : undefined;
}

function inUnit(q: Quantity | undefined, unit: Unit): Exact | undefined {
  return q && q.unit.dimension === unit.dimension ? inBase(q).over(unit.factor) : undefined;
}

/** The order at these values of its axes; inputs that are no range keep their one value. */
export function pointOf(recipe: Recipe, axes: readonly OrderAxis[], values: readonly Exact[]): OrderPoint {
  const point = new Map(pointAt(recipe, "from"));
  for (const [k, { input, unit }] of axes.entries()) point.set(input, { value: values[k]!, unit });
  return point;
}

/** Whether the order is for such a patient: for each input some row holds him, its condition kept. */
export function isOrdered(recipe: Recipe, axes: readonly OrderAxis[], point: OrderPoint): boolean {
  const rows = inputRanges(recipe);
  return axes.every(({ input }) =>
    rows.some((row) => {
      if (row.input !== input) return false;
      const { from, to } = row.range;
      const value = point.get(input);
      if (!value || !from.quantity || !to.quantity) return false;
      const base = inBase(value);
      if (base.isBelow(inBase(from.quantity)) || base.isAbove(inBase(to.quantity))) return false;
      return row.when === undefined || holds(row.when, point, []) === true;
    }),
  );
}
