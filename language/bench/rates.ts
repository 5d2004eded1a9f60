/**
 * How fast a finished container is given: mL/h from the ordered time or the ordered rate, as the pump can be set and as drops are
 * counted, and the table of pump rates by weight and dose rate. Each rounding is named in the working. Pure; for hovers, hints,
 * sheets and checks.
 */
import type { Policy } from "../model/policy.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { hoursOfGiving } from "../quantities/hours.ts";
import { inBase, type Quantity, showQuantity } from "../quantities/quantity.ts";
import { dripRate, dripToPump, pumpRate, wholeDrops } from "../quantities/rates.ts";
import { findUnit } from "../quantities/unit.ts";
import { amountOf, isRefusal, kindOf, kindUnits } from "./amounts.ts";
import { isGivenAtOnce } from "./given-at-once.ts";
import { forPatient } from "./order.ts";
import { type OrderedDose, rowAt } from "./order-rows.ts";
import type { Run } from "./run.ts";
import type { Vessel } from "./things.ts";

const pumpUnit = findUnit("mL/h").unit!;
const millilitre = findUnit("mL").unit!;
const hour = findUnit("h").unit!;

export interface Drops {
  /** drops/min, exact, and as a person counts them. */
  exact: Quantity;
  counted: Quantity;
  /** drops/mL of the set, and its name in `materials`. */
  factor: Quantity;
  set: string;
}

export interface GivingRate {
  /** mL/h, exact. */
  rate: Quantity;
  /** mL/h as the site's pumps can be set. */
  pump: Quantity;
  /** mL that are given, or all of it where that part is not known, and the time they take, in h. */
  volume: Exact;
  hours: Exact;
  drops: Drops | undefined;
  working: readonly string[];
}

/** How a container is given by the order, before a pump is set or drops are counted. */
interface OrderedGiving {
  /** mL/h, exact. */
  rate: Quantity;
  /** mL that are given, or all of it where that part is not known. */
  volume: Exact;
  working: string[];
}

/** Undefined where no rate is ordered, it is a bolus, or the figures are not known. */
export function orderedGiving(run: Run, vessel: Vessel): OrderedGiving | undefined {
  const { order } = run.recipe;
  if (run.unknown || !order || !vessel.liquid.volume.isPositive()) return undefined;
  if (isGivenAtOnce(run.recipe)) return undefined;
  const volume = volumeGiven(run, vessel);
  const working: string[] = [];
  const rate = rateAsOrdered(run, vessel, working) ?? (volume && overTime(run, volume, working));
  // An ordered rate stands, however much of the container is given.
  return rate?.value.isPositive() ? { rate, volume: volume ?? vessel.liquid.volume, working } : undefined;
}

/** Undefined where no rate is ordered, it is a bolus, or the figures are not known. */
export function givingRate(run: Run, vessel: Vessel, policy: Policy): GivingRate | undefined {
  const ordered = orderedGiving(run, vessel);
  return ordered && asSet(ordered, run, policy);
}

/** The same with what can be set: the pump's step, whole drops. */
function asSet({ rate, volume, working }: OrderedGiving, run: Run, policy: Policy): GivingRate {
  const pump = { value: rate.value.toNearest(policy.pumpStep), unit: pumpUnit };
  if (!pump.value.equals(rate.value)) {
    const step = showQuantity({ value: policy.pumpStep, unit: pumpUnit });
    working.push(`pump set to the nearest ${step}: ${showQuantity(rate)} becomes ${showQuantity(pump)}`);
  }
  const drops = dropsOf(run, rate, working);
  return { rate, pump, volume, hours: volume.over(rate.value), drops, working };
}

/**
 * How it is given, where what can be set may be off by more than this share. Rounding takes half a step at most, so that a fast rate is not rounded at
 * all: each rounding cuts a range of orders into as many pieces as it has results.
 */
export function givingRateIfRough(run: Run, vessel: Vessel, policy: Policy, share: Exact): GivingRate | undefined {
  const ordered = orderedGiving(run, vessel);
  if (!ordered) return undefined;
  const set = dropFactor(run);
  const exact = set ? dropsPerMinute(ordered.rate, set.factor) : ordered.rate;
  const halfStep = set ? Exact.ratio(1, 2) : policy.pumpStep.over(Exact.of(2));
  return exact?.value.times(share).isAtLeast(halfStep) ? undefined : asSet(ordered, run, policy);
}

/**
 * mL of the whole container, or of the part of it that holds the dose; undefined where that part is not known: an order by strength names
 * no dose, and of several drugs each dose may ask for another part.
 */
export function volumeGiven(run: Run, vessel: Vessel): Exact | undefined {
  const { volume } = vessel.liquid;
  if (run.recipe.order?.one("use")?.slots.use.choice !== "part-of-container") return volume;
  const parts = run.doses.map((dose) => volumeOfDose(dose, vessel, run));
  const [first] = parts;
  if (!first) return undefined;
  if (parts.length === 1) return first;
  let [least, most] = [first, first];
  for (const part of parts) {
    if (!part) return undefined;
    least = Exact.least(least, part);
    most = Exact.greatest(most, part);
  }
  // What is drawn by the marks may be off a little for each; more than all there is nobody can give.
  const isOnePart = most.minus(least).isAtMost(most.times(run.policy.tolerance.dose));
  return isOnePart ? Exact.least(most, volume) : undefined;
}

function volumeOfDose(dose: OrderedDose, vessel: Vessel, run: Run): Exact | undefined {
  const kind = run.setup.kinds.get(dose.drug);
  const drug = run.setup.drugs.get(dose.drug);
  const held = vessel.liquid.amounts.get(dose.drug);
  if (!dose.given || dose.byConcentration || !kind || !drug || !held?.isPositive()) return undefined;
  const wanted = amountOf(dose.given, kind, drug.substance, dose.as, dose.ion);
  return isRefusal(wanted) ? undefined : wanted.times(vessel.liquid.volume).over(held);
}

function overTime(run: Run, volume: Exact, working: string[]): Quantity | undefined {
  const slot = rowAt(run.recipe.order?.all("infuse-over"), run)?.slots.time;
  const hours = hoursOfGiving(slot?.quantity);
  if (!slot || !hours) return undefined;
  const rate = { value: volume.over(hours), unit: pumpUnit };
  working.push(
    `${showQuantity({ value: volume, unit: millilitre })} ÷ ${showQuantity({ value: hours, unit: hour })} = ${showQuantity(rate)}`,
  );
  return rate;
}

export interface OrderedRate {
  rate: MeasureSlot;
  /** The form of the drug that a rate of it counts: as it says itself, else as the order says of its drug. */
  as: string | undefined;
}

/** The row of `infuse-at` that holds for this patient and dose. */
export function orderedRate(run: Run): OrderedRate | undefined {
  const { order } = run.recipe;
  const slots = rowAt(order?.all("infuse-at"), run)?.slots;
  return slots && { rate: slots.rate, as: (slots.salt ?? order?.one("drug")?.slots.salt)?.name };
}

/** `infuse-at` as volume, drops or drug in a time. */
function rateAsOrdered(run: Run, vessel: Vessel, working: string[]): Quantity | undefined {
  const stated = orderedRate(run);
  const slot = stated?.rate;
  const ordered = slot?.quantity;
  if (!stated || !slot || !ordered) return undefined;
  const key = ordered.unit.dimension.key;
  if (key === "volume/time") return { value: inBase(ordered), unit: pumpUnit };
  if (key === "drops/time") {
    const set = dropFactor(run);
    const rate = set && dripToPump(ordered, set.factor);
    if (!rate || isRefusal(rate)) return undefined;
    working.push(`${slot.written} ÷ ${showQuantity(set.factor)} = ${showQuantity(rate)}`);
    return rate;
  }
  const below = key.split("/").slice(1);
  const isOfLiquid = key === "volume/bodyWeight/time" || key === "volume/area/time";
  const patient = isOfLiquid || below.includes("area") ? forPatient(ordered, run.point) : ordered;
  if (!patient) return undefined;
  if (patient !== ordered) {
    const by = run.point.get(below.includes("area") ? "body-surface" : "weight")!;
    working.push(`${slot.written} × ${showQuantity(by)} = ${showQuantity(patient)}`);
  }
  if (isOfLiquid) return { value: inBase(patient), unit: pumpUnit };
  const [drug, second] = vessel.liquid.drugs;
  if (drug === undefined || second !== undefined) return undefined;
  const rate = rateFor(run, vessel, drug, patient, run.point.get("weight"), stated.as);
  if (typeof rate === "string") return undefined;
  working.push(rate.line);
  return rate.rate;
}

/** mL/h for a rate of a drug in this container, counted as the form `as`, with the line of its working; or why it cannot be said. */
export function rateFor(
  run: Run,
  vessel: Vessel,
  drug: string,
  ordered: Quantity,
  weight: Quantity | undefined,
  as?: string,
): { rate: Quantity; line: string } | string {
  const kind = run.setup.kinds.get(drug);
  const of = run.setup.drugs.get(drug)?.substance;
  const held = vessel.liquid.amounts.get(drug);
  const numerator = kindOf(ordered);
  if (!kind || !of || !held?.isPositive() || !numerator) return `${showQuantity(ordered)} is no rate of ${drug}`;
  // The concentration in the kind and the form that the rate is ordered in, so that mmol/h meets mg/mL through the drug's own formula.
  const one = amountOf({ value: Exact.one, unit: kindUnits[numerator] }, kind, of, as);
  if (isRefusal(one)) return one.reason;
  if (!one.isPositive()) return `${showQuantity(ordered)} is no rate of ${drug}`;
  const perMl = held.over(vessel.liquid.volume).over(one);
  const unit = findUnit(`${kindUnits[numerator].spelling}/mL`).unit!;
  const rate = pumpRate(ordered, { value: perMl, unit }, weight);
  if (isRefusal(rate)) return rate.reason;
  const strength = `${showQuantity(inHandyStrength({ value: perMl, unit }))}${as === undefined ? "" : ` as ${as}`}`;
  const by = ordered.unit.dimension.key.split("/").includes("bodyWeight") && weight ? ` × ${showQuantity(weight)}` : "";
  return { rate, line: `${showQuantity(ordered)}${by} ÷ ${strength} = ${showQuantity(rate)}` };
}

function inHandyStrength(q: Quantity): Quantity {
  const mg = findUnit("mg/mL").unit!;
  return q.unit.spelling === "g/mL" ? { value: q.value.over(mg.factor), unit: mg } : q;
}

/** What the giving set of the tray makes of a mL. */
export function dropFactor(run: Run): { factor: Quantity; set: string } | undefined {
  for (const { item, name } of run.groups.values()) {
    const factor = item?.kind === "device" ? item.facts.one("drop-factor")?.slots.drops.quantity : undefined;
    if (factor?.unit.dimension.key === "drops/volume" && factor.value.isPositive()) return { factor, set: name };
  }
  return undefined;
}

export function dropsPerMinute(rate: Quantity, factor: Quantity): Quantity | undefined {
  const exact = dripRate({ value: rate.value, unit: millilitre }, { value: Exact.one, unit: hour }, factor);
  return isRefusal(exact) ? undefined : exact;
}

function dropsOf(run: Run, rate: Quantity, working: string[]): Drops | undefined {
  const set = dropFactor(run);
  if (!set) return undefined;
  const exact = dropsPerMinute(rate, set.factor);
  if (!exact) return undefined;
  const counted = wholeDrops(exact);
  const rounding = counted.value.equals(exact.value) ? "" : `, counted as ${showQuantity(counted)}`;
  working.push(`${showQuantity(rate)} × ${showQuantity(set.factor)} ÷ 60 min/h = ${showQuantity(exact)}${rounding}`);
  return { exact, counted, ...set };
}

export interface DoseRateTable {
  drug: string;
  doseRates: readonly Quantity[];
  /** One row a weight; `cells` in the order of the dose rates, mL/h exact and as the pump is set. */
  rows: readonly { weight: Quantity | undefined; cells: readonly { exact: Quantity; pump: Quantity }[] }[];
}

/**
 * Pump rates of a container by dose rate and, where the rates are per kg, by weight.
 * @param as the form of the drug that the dose rates count
 * @returns why, in words, where a figure cannot be said
 */
export function doseRateTable(
  run: Run,
  vessel: Vessel,
  drug: string,
  doseRates: readonly Quantity[],
  weights: readonly Quantity[],
  policy: Policy,
  as?: string,
): DoseRateTable | string {
  const rows: DoseRateTable["rows"][number][] = [];
  const perKilogram = doseRates.some((rate) => rate.unit.dimension.key.split("/").includes("bodyWeight"));
  if (perKilogram && weights.length === 0) return "a rate per kg needs a weight";
  for (const weight of perKilogram ? weights : [undefined]) {
    const cells: { exact: Quantity; pump: Quantity }[] = [];
    for (const rate of doseRates) {
      const found = rateFor(run, vessel, drug, rate, weight, as);
      if (typeof found === "string") return found;
      cells.push({ exact: found.rate, pump: { value: found.rate.value.toNearest(policy.pumpStep), unit: pumpUnit } });
    }
    rows.push({ weight, cells });
  }
  return { drug, doseRates, rows };
}
