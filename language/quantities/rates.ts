/**
 * How fast a liquid is given: pump rates, dose rates and drops, each exact and with its unit. Rounding to what a pump or a drip
 * chamber can do is the caller's, by its name. Used by sheets, hovers and checks.
 */
import { Exact } from "./exact.ts";
import { asBodyWeight, over, type Quantity, times, toUnit } from "./quantity.ts";
import { type Refusal, refuse } from "./refusal.ts";
import { findUnit, plainUnit, type Unit } from "./unit.ts";

const unit = (spelling: string): Unit => findUnit(spelling).unit!;

/** Patient's weight as body weight, from a mass or as it comes out of a calculation. */
function bodyWeight(weight: Quantity): Quantity | Refusal {
  if (weight.unit.dimension.key === "bodyWeight") return weight;
  return (
    asBodyWeight(weight) ??
    refuse("different-dimension", `${weight.unit.spelling} is not a body weight. Give the weight in kg.`)
  );
}

function zero(what: string): Refusal {
  return refuse("different-dimension", `${what} is 0, so no rate follows from it. Give it above 0.`);
}

/**
 * mL/h at which a pump gives a dose rate: 5 mcg/kg/min at 80 kg from 1.6 mg/mL is 15 mL/h.
 * @param doseRate amount per time, or per weight and time; @param weight needed with a figure per kg
 * @returns exact mL/h, or why it cannot be said
 */
export function pumpRate(doseRate: Quantity, concentration: Quantity, weight?: Quantity): Quantity | Refusal {
  if (concentration.value.isZero()) return zero("The concentration");
  const rate = wholeRate(doseRate, weight);
  return "refused" in rate ? rate : toUnit(over(rate, concentration), unit("mL/h"));
}

function wholeRate(doseRate: Quantity, weight: Quantity | undefined): Quantity | Refusal {
  if (!doseRate.unit.dimension.key.split("/").includes("bodyWeight")) return doseRate;
  if (!weight)
    return refuse("different-dimension", `${doseRate.unit.spelling} needs the weight. Give the weight in kg.`);
  const kilograms = bodyWeight(weight);
  return "refused" in kilograms ? kilograms : times(doseRate, kilograms);
}

/**
 * The dose rate that a pump gives: the way back from `pumpRate`.
 * @param to the unit wanted, such as `mcg/kg/min`; a unit per kg needs the weight
 */
export function doseRate(rate: Quantity, concentration: Quantity, to: Unit, weight?: Quantity): Quantity | Refusal {
  const perTime = times(concentration, rate);
  if (!to.dimension.key.split("/").includes("bodyWeight")) return toUnit(perTime, to);
  if (!weight) return refuse("different-dimension", `${to.spelling} needs the weight. Give the weight in kg.`);
  const kilograms = bodyWeight(weight);
  if ("refused" in kilograms) return kilograms;
  return kilograms.value.isZero() ? zero("The weight") : toUnit(over(perTime, kilograms), to);
}

/** Drops a minute by which a set of so many drops a mL gives a volume in a time: exact; a person counts whole drops. */
export function dripRate(volume: Quantity, time: Quantity, dropsPerMillilitre: Quantity): Quantity | Refusal {
  if (time.value.isZero()) return zero("The time");
  return toUnit(over(times(volume, dropsPerMillilitre), time), unit("drops/min"));
}

/** mL/h that so many drops in a time are, on a set of so many drops a mL. */
export function dripToPump(drops: Quantity, dropsPerMillilitre: Quantity): Quantity | Refusal {
  if (dropsPerMillilitre.value.isZero()) return zero("The number of drops in a mL");
  return toUnit(over(drops, dropsPerMillilitre), unit("mL/h"));
}

/** The nearest whole drop, half up: nobody counts a part of a drop. */
export function wholeDrops(rate: Quantity): Quantity {
  return { value: rate.value.roundedTo(0), unit: rate.unit };
}

/** An amount given evenly over a time: 40 mmol over 4 h is 10 mmol/h. */
export function evenly(amount: Quantity, time: Quantity): Quantity | Refusal {
  return time.value.isZero() ? zero("The time") : over(amount, time);
}

/** Rate as the pump can be set: the nearest multiple of its step, half up. */
export function asPumpSets(rate: Quantity, step: Quantity): Quantity | Refusal {
  const inRate = toUnit(step, rate.unit);
  if ("refused" in inRate) return inRate;
  return inRate.value.isPositive()
    ? { value: rate.value.toNearest(inRate.value), unit: rate.unit }
    : zero("The step of the pump");
}

/** A count without a unit, for arithmetic with quantities. */
export function count(value: string | number): Quantity {
  return { value: Exact.of(value), unit: plainUnit };
}
