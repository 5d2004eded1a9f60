/** From what was typed (`--weight 60kg`) to the point of the order at which the bench is run, or a clear refusal. */

import { type InputRange, inputRanges, type OrderInput, orderedDoses, orderInputs, pointAt } from "../bench/order.ts";
import { holds, type OrderPoint } from "../bench/order-rows.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, sameDimension, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { SheetRefusal } from "./sheet.ts";

const said: Readonly<Record<OrderInput, string>> = {
  weight: "body weight",
  age: "age",
  "body-surface": "body surface",
  lumen: "volume of the lumen",
  clearance: "clearance",
};

/** One value for each input that the order knows, each inside its declared range. */
export function orderPoint(recipe: Recipe, inputs: ReadonlyMap<string, string>): OrderPoint | SheetRefusal {
  const ranges = inputRanges(recipe);
  const point = new Map<string, Quantity>();
  for (const input of orderInputs) {
    const own = ranges.filter((r) => r.input === input);
    const typed = inputs.get(input);
    if (own.length === 0) {
      if (typed === undefined) continue;
      return { refusal: `${recipe.name.name} does not depend on ${said[input]}. Leave out --${input}.` };
    }
    const value = typed === undefined ? onlyValue(own) : readInput(input, typed);
    if (value === undefined) {
      const wanted = own.map(rangeText).join(", or ");
      return {
        refusal: `${recipe.name.name} is ordered for a ${said[input]} of ${wanted}. Say which: --${input} VALUE.`,
      };
    }
    if ("refusal" in value) return value;
    point.set(input, value);
  }
  for (const input of orderInputs) {
    const value = point.get(input);
    const fault = value && rangeFault(recipe, input, value, ranges, point);
    if (fault) return fault;
  }
  return point;
}

/**
 * A batch is made for nobody in particular: an input that was not given stands at its lower end, provided that no dose changes over
 * the range (the rate table then shows the range). Where a dose does change, nothing is filled in and the order asks for it.
 */
export function inputsOfBatch(
  recipe: Recipe,
  inputs: ReadonlyMap<string, string>,
  lookup: Lookup,
): ReadonlyMap<string, string> {
  const [low, high] = [pointAt(recipe, "from"), pointAt(recipe, "to")];
  const [atLow, atHigh] = [orderedDoses(recipe, low, lookup), orderedDoses(recipe, high, lookup)];
  const same = atLow.every(({ given }, i) => {
    const other = atHigh[i]?.given;
    return given && other && inBase(given).equals(inBase(other));
  });
  if (!same || recipe.materials.some((m) => m.when)) return inputs;
  const lower = [...low].map(([input, value]) => [input, `${value.value.toText()} ${value.unit.spelling}`] as const);
  return new Map([...lower, ...inputs]);
}

function onlyValue(ranges: readonly InputRange[]): Quantity | undefined {
  const [only, second] = ranges;
  const from = only?.range.from.quantity;
  const to = only?.range.to.quantity;
  if (!from || !to || second) return undefined;
  return sameDimension(from, to) && inBase(from).equals(inBase(to)) ? from : undefined;
}

/** A plain decimal number and a unit, nothing looser: `60,5` could be read as 605. */
function readInput(input: OrderInput, typed: string): Quantity | SheetRefusal {
  const parts = /^(\d+(?:\.\d+)?)\s*(\D.*)$/.exec(typed.trim());
  const unit = parts && findUnit(parts[2]!);
  if (!parts || !unit?.unit || !unit.exact) {
    const near = unit && unit.near.length > 0 ? ` Units near it: ${unit.near.join(", ")}.` : "";
    return {
      refusal: `--${input} is "${typed}". Write a number with a point and a unit, such as --${input} ${inputExample[input]}.${near}`,
    };
  }
  return { value: Exact.of(parts[1]!), unit: unit.unit };
}

const inputExample: Readonly<Record<OrderInput, string>> = {
  weight: "60.5kg",
  age: "8years",
  "body-surface": "1.73m2",
  lumen: "1.5mL",
  clearance: "90mL/min",
};

function rangeText(range: InputRange): string {
  const { from, to } = range.range;
  const step = range.step ? ` in steps of ${showQuantity(range.step)}` : "";
  return range.range.isRange ? `${from.written} to ${to.written}${step}` : from.written;
}

function rangeFault(
  recipe: Recipe,
  input: OrderInput,
  value: Quantity,
  ranges: readonly InputRange[],
  point: OrderPoint,
): SheetRefusal | undefined {
  const facts = recipe.order?.all(input) ?? [];
  const own = ranges.filter((range) => {
    const when = facts.find((f) => f.start === range.start)?.when;
    return range.input === input && (!when || holds(when, point, []) === true);
  });
  const comparable = own.filter((r) => r.range.from.quantity && sameDimension(r.range.from.quantity, value));
  const name = recipe.name.name;
  if (comparable.length === 0) {
    const wanted = own.map(rangeText).join(", or ") || "none for the other figures given";
    return { refusal: `--${input} is ${showQuantity(value)}; ${name} is ordered for ${wanted}. Give it in that unit.` };
  }
  const inside = comparable.filter(({ range }) => {
    const base = inBase(value);
    return (
      base.isAtLeast(inBase(range.from.quantity!)) && !!range.to.quantity && base.isAtMost(inBase(range.to.quantity))
    );
  });
  if (inside.length === 0) {
    const wanted = comparable.map(rangeText).join(", or ");
    return {
      refusal: `The ${said[input]} of ${showQuantity(value)} lies outside ${wanted}, for which ${name} was written. Use another recipe, or ask the pharmacist.`,
    };
  }
  if (inside.some((range) => isOnStep(value, range))) return undefined;
  return {
    refusal: `The ${said[input]} of ${showQuantity(value)} is no step of ${inside.map(rangeText).join(", or ")}. Round it as your procedure says and give it so.`,
  };
}

function isOnStep(value: Quantity, { range, step }: InputRange): boolean {
  if (!step) return true;
  const size = inBase(step);
  return !size.isPositive() || inBase(value).minus(inBase(range.from.quantity!)).over(size).isWhole();
}
