/**
 * The order at one point of its range: the dose of each drug after calculating, rounding and capping, in that order and never
 * another. Each figure keeps the lines by which a person would work it out.
 */

import type { Drug, Recipe } from "../model/declaration.ts";
import { keptWith } from "../model/kept-with.ts";
import type { Lookup } from "../model/lookup.ts";
import type { ConditionSlot, MeasureSlot, NameSlot, RangeSlot, Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";
import type { Unit } from "../quantities/unit.ts";
import { findUnit } from "../quantities/unit.ts";
import { dosesByConcentration } from "./dose-by-concentration.ts";
import { type OrderedDose, type OrderPoint, rowAt, rowsAt, rowsOf } from "./order-rows.ts";
import { settle } from "./settled-dose.ts";
import { line, type WorkingLine } from "./working-line.ts";

export const orderInputs = ["weight", "age", "body-surface", "lumen", "clearance"] as const;
export type OrderInput = (typeof orderInputs)[number];

export interface InputRange extends Spot {
  input: OrderInput;
  range: RangeSlot;
  step: Quantity | undefined;
  /** Holds for some patients only: `weight 2 kg to 6 kg when age below 3 months`. */
  when: ConditionSlot | undefined;
}

export const inputRanges = keptWith<Recipe, readonly InputRange[]>(readRanges);

function readRanges({ order }: Recipe): InputRange[] {
  if (!order) return [];
  return orderInputs.flatMap((input) =>
    order.all(input).map((f) => ({
      input,
      range: f.slots.range,
      step: f.slots.step?.quantity,
      when: f.when,
      start: f.start,
      end: f.end,
    })),
  );
}

/** The point of an order without ranges, or the lower ends of its ranges. */
export function pointAt(recipe: Recipe, end: "from" | "to"): OrderPoint {
  const point = new Map<string, Quantity>();
  for (const { input, range } of inputRanges(recipe)) {
    const value = range[end].quantity;
    const known = point.get(input);
    if (!value) continue;
    if (!known || (end === "from" ? isLess(value, known) : isLess(known, value))) point.set(input, value);
  }
  return point;
}

/** The lower and the upper ends of its ranges; the one point of an order without ranges. */
export function endsOf(recipe: Recipe): [OrderPoint] | [low: OrderPoint, high: OrderPoint] {
  const [low, high] = [pointAt(recipe, "from"), pointAt(recipe, "to")];
  const isRange = [...low].some(([input, value]) => {
    const other = high.get(input);
    return other !== undefined && !inBase(other).equals(inBase(value));
  });
  return isRange ? [low, high] : [low];
}

/**
 * The row of `final-volume` that holds for this patient and dose.
 * @param container in a series each has its own; without it the row that names none
 */
export function finalVolumeAt({ order }: Recipe, point: OrderPoint, doses: readonly OrderedDose[], container = "") {
  return rowAt(rowsOf(order?.all("final-volume") ?? [], container), { point, doses });
}

/** The ordered final volume itself: `10 mL/kg` at 12 kg is 120 mL. Undefined where none is ordered or known. */
export function orderedFinalVolume(
  recipe: Recipe,
  point: OrderPoint,
  doses: readonly OrderedDose[],
  container = "",
): Quantity | undefined {
  const stated = finalVolumeAt(recipe, point, doses, container)?.slots.volume.quantity;
  return stated && volumeForPatient(stated, point);
}

/** The ordered volume of diluent itself: `2 mL/kg` at 12 kg is 24 mL. Undefined where none is ordered or known. */
export function orderedDiluentVolume(
  { order }: Recipe,
  point: OrderPoint,
  doses: readonly OrderedDose[],
): Quantity | undefined {
  const stated = rowAt(order?.all("diluent-volume"), { point, doses })?.slots.volume.quantity;
  return stated && volumeForPatient(stated, point);
}

/** A volume, or one per kg or m2 for this patient. */
export function volumeForPatient(stated: Quantity, point: OrderPoint): Quantity | undefined {
  const { key } = stated.unit.dimension;
  if (key === "volume") return stated;
  return key === "volume/bodyWeight" || key === "volume/area" ? forPatient(stated, point) : undefined;
}

function isLess(a: Quantity, b: Quantity): boolean {
  return a.unit.dimension === b.unit.dimension && inBase(a).isBelow(inBase(b));
}

export function orderedDoses(recipe: Recipe, point: OrderPoint, lookup: Pick<Lookup, "find">): OrderedDose[] {
  const order = recipe.order;
  if (!order) return [];
  const doses: OrderedDose[] = [];
  const drug = order.one("drug");
  // What is given is known only afterwards, so that these conditions speak of the patient alone.
  const patient = { point, doses: [] };
  const dose = rowAt(order.all("dose"), patient);
  const first = order.one("dose");
  if (drug && first && !dose) {
    const none = doseFrom(drug.slots.drug.name, first.slots.dose, first.slots, first, point, lookup);
    doses.push({
      ...none,
      given: undefined,
      calculated: undefined,
      missing: "a row of `dose` that holds",
      toldInOrder: true,
    });
  }
  if (drug && !first) {
    const volumeOf = (name: string) => {
      const slot = finalVolumeAt(recipe, point, [], name)?.slots.volume;
      return slot && { ...slot, quantity: slot.quantity && volumeForPatient(slot.quantity, point) };
    };
    doses.push(...dosesByConcentration(recipe, volumeOf));
  }
  if (drug && dose) {
    const slots = { ...dose.slots, salt: dose.slots.salt ?? drug.slots.salt };
    const start = doseFrom(drug.slots.drug.name, slots.dose, slots, dose, point, lookup);
    doses.push(settle(start, recipe, lookup, slots.bands, patient));
  }
  for (const { slots, start, end } of rowsAt(order.all("additive"), patient)) {
    doses.push(doseFrom(slots.drug.name, slots.dose, slots, { start, end }, point, lookup));
  }
  return doses;
}

interface DoseSlots {
  ion?: NameSlot;
  salt?: NameSlot | undefined;
  container?: NameSlot;
  time?: MeasureSlot;
}

/** @param lookup the library; without it no dose follows from an exposure, such as for an ion */
export function doseFrom(
  drug: string,
  measure: MeasureSlot,
  slots: DoseSlots,
  spot: Spot,
  point: OrderPoint,
  lookup?: Pick<Lookup, "find">,
): OrderedDose {
  const per = slots.time ? { time: slots.time } : { container: slots.container?.name ?? "" };
  const start: OrderedDose = {
    drug,
    given: undefined,
    calculated: undefined,
    ion: slots.ion?.name,
    as: slots.salt?.name,
    per,
    measure,
    working: [],
    missing: undefined,
    start: spot.start,
    end: spot.end,
  };
  if (!measure.quantity) return { ...start, missing: "the dose cannot be read", toldInOrder: true };
  if (isExposure(measure.quantity))
    return { ...start, ...byClearance(measure.quantity, lookup?.find("drug", drug), point) };
  return { ...start, ...multiplied(measure.quantity, point) };
}

/** The dose of a drug that this container is to hold; undefined where the order states it for other containers or for a time alone. */
export function doseFor(doses: readonly OrderedDose[], drug: string, container: string): OrderedDose | undefined {
  return doses.find((d) => d.drug === drug && "container" in d.per && d.per.container === container);
}

/** A target AUC, from which a dose follows by the patient's clearance. */
export function isExposure({ unit }: Quantity): boolean {
  return unit.dimension.key === "exposure";
}

const perMinute = findUnit("mL/min").unit!;

/** AUC 5 at a clearance of 90 mL/min is 5 × (90 + 25) = 575 mg: the formula that the drug's monograph names. */
function byClearance(
  target: Quantity,
  drug: Drug | undefined,
  point: OrderPoint,
): Pick<OrderedDose, "given" | "calculated" | "working" | "missing" | "toldInOrder"> {
  const none = { given: undefined, calculated: undefined, working: [], toldInOrder: true as const };
  if (!drug?.facts.one("dose-by-auc")) return { ...none, missing: "`dose-by-auc` of the drug" };
  const clearance = point.get("clearance");
  if (clearance?.unit.dimension !== perMinute.dimension) return { ...none, missing: "clearance" };
  const inMinute = inBase(clearance).over(inBase({ value: Exact.one, unit: perMinute }));
  const given = { value: target.value.times(inMinute.plus(Exact.of(25))), unit: findUnit("mg").unit! };
  const shown = showQuantity({ value: inMinute, unit: perMinute });
  const text = `AUC ${showNumber(target)} × (${shown} + 25 mL/min) = ${showQuantity(given)}`;
  return { given, calculated: given, working: [line("computed", text, given)], missing: undefined };
}

function showNumber({ value, unit }: Quantity): string {
  return showQuantity({ value, unit }).replace(/ .*$/, "");
}

/** `25 mg/kg` at 60 kg is 1500 mg; the same for body surface and lumen volume. */
function multiplied(
  dose: Quantity,
  point: OrderPoint,
): Pick<OrderedDose, "given" | "calculated" | "working" | "missing" | "toldInOrder"> {
  const [numerator, ...below] = dose.unit.spelling.split("/");
  const perInputs: Readonly<Record<string, OrderInput>> = { kg: "weight", m2: "body-surface" };
  let value = dose.value;
  const working: WorkingLine[] = [];
  const factors = [showQuantity(dose)];
  for (const denominator of below) {
    const input = perInputs[denominator];
    if (!input) continue;
    const by = point.get(input);
    if (!by) return { given: undefined, calculated: undefined, working, missing: input, toldInOrder: true };
    const factor = inBase(by).over(baseOf(input));
    value = value.times(factor);
    factors.push(showQuantity(by));
  }
  const rest = [numerator, ...below.filter((d) => !perInputs[d])].join("/");
  const unit: Unit | undefined = below.length === 0 ? dose.unit : findUnit(rest).unit;
  if (!unit) return { given: undefined, calculated: undefined, working, missing: `the unit ${dose.unit.spelling}` };
  const calculated = { value, unit };
  if (factors.length > 1)
    working.push(line("computed", `${factors.join(" × ")} = ${showQuantity(calculated)}`, calculated));
  return { given: calculated, calculated, working, missing: undefined };
}

/** A figure per kg or per m2 for this patient: `5 mL/kg/h` at 20 kg is 100 mL/h. Undefined where the order lacks the patient's figure. */
export function forPatient(figure: Quantity, point: OrderPoint): Quantity | undefined {
  return multiplied(figure, point).given;
}

/** One kg, one m2 in base units: what a per-kg figure is multiplied by. */
function baseOf(input: OrderInput): Exact {
  return inBase({ value: Exact.one, unit: findUnit(input === "weight" ? "kg" : "m2").unit! });
}
