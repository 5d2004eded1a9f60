/** What the quantity of each fact and step measures. A fact that is not listed takes quantities of several kinds. */
import type { StatedMeasure } from "./measures.ts";

export interface Expected {
  /** Keys of dimensions that fit. */
  fits: ReadonlySet<string>;
  /** In trade words, with an example: "a time, such as 4 h". */
  name: string;
}

const amounts = ["mass", "moles", "equivalents", "activity", "volume"];
const below = (...under: string[]) => amounts.flatMap((a) => under.map((u) => `${a}${u}`));

function expected(name: string, ...keys: string[]): Expected {
  return { fits: new Set(keys), name };
}

const volume = expected("a volume, such as 10 mL", "volume");
const mass = expected("a mass, such as 100 mg", "mass");
const volumeOfPatient = expected("a volume, such as 50 mL or 10 mL/kg", "volume", "volume/bodyWeight", "volume/area");
const weight = expected("a body weight, such as 60 kg", "mass");
const surface = expected("a body surface, such as 1.8 m2", "area");
const clearance = expected("a clearance of this patient, such as 90 mL/min", "volume/time");
const share = expected("a share in percent, such as 5 %", "percent");
const length = expected("a pore size, such as 5 micrometre", "length");
const density = expected("a density, such as 1.05 g/mL", "mass/volume");
const time = expected("a time, such as 4 h or 2 days", "time", "calendarDays", "calendarMonths");
const elapsed = expected("a time, such as 4 h or 30 min", "time");
const amount = expected("an amount or a volume, such as 4 g or 8 mL", ...amounts);
const content = expected("an amount of drug, such as 500 mg", ...amounts);
const concentration = expected(
  "an amount in a volume, such as 50 mg/mL",
  ...below("/volume"),
  "volume/volume",
  "mass/mass",
  "1",
  "percent", // named by strength-percent-without-kind
);
const osmolarity = expected("an osmolarity, such as 308 mOsm/L", "osmoles/volume", "osmoles/mass");
const dose = expected(
  "a dose, such as 4 g, 25 mg/kg or 75 mg/m2",
  "exposure", // 5 AUC, by the drug's formula
  ...below("", "/bodyWeight", "/area", "/time", "/bodyWeight/time", "/area/time"),
);
const ionDose = expected(
  "a dose, such as 20 mmol or 2 mmol/kg",
  ...below("", "/bodyWeight", "/area", "/time", "/bodyWeight/time", "/area/time"),
);
const settledDose = expected("an amount, such as 250 mg", ...below("", "/time"));
const rate = expected(
  "a rate, such as 50 mL/h, 1 g/h or 5 mcg/kg/min",
  ...below("/time", "/bodyWeight/time", "/area/time"),
  "drops/time",
);
const displacement = expected("a volume, or a volume for a mass, such as 0.4 mL or 0.8 mL/g", "volume", "volume/mass");
const activityStrength = expected("units in a volume, such as 100 units/mL", "activity/volume");
const containerWeight = expected("a weight, such as 160 g", "mass");
const pumpStep = expected("a step of a pump, such as 0.1 mL/h", "volume/time");
const dropFactor = expected("drops in a volume, such as 20 drops/mL", "drops/volume");
const ph = expected("a pH, such as 4.5 pH", "pH");

const byPlace: Readonly<Record<string, Expected>> = {
  "site tolerance": share,
  "site expiry-ahead": time,
  "site additive-share": share,
  "site smallest-share": share,
  "site largest-share": share,
  "site peripheral-osmolarity": osmolarity,
  "site air-for-hazardous": share,
  "site equal-air-above": volume,
  "site small-dose": volume,
  "site pump-step": pumpStep,
  "drug salt": mass,
  "drug density": density,
  "drug dose": dose,
  "drug concentration": concentration,
  "drug usual-concentration": concentration,
  "drug rate": rate,
  "drug container-material": time,
  "drug filter": length,
  "drug ph": ph,
  "stable concentration": concentration,
  "stable for": time,
  "fluid contains": concentration,
  "fluid osmolarity": osmolarity,
  "stock osmolarity": osmolarity,
  "fluid density": density,
  "fluid ph": ph,
  "stock strength": concentration,
  "stock content": content,
  "stock contains": concentration,
  "stock fill": volume,
  "stock overfill": volume,
  "stock capacity": volume,
  "stock priming-volume": volume,
  "stock in-use": time,
  "stock density": density,
  "stock empty-weight": containerWeight,
  "stock displacement": displacement,
  "reconstitute with": volume,
  "reconstitute gives": concentration,
  "reconstitute withdrawable": volume,
  "device capacity": volume,
  "device graduation": volume,
  "device scale-of": activityStrength,
  "device drop-factor": dropFactor,
  "device pore": length,
  "device dead-space": volume,
  "device priming-volume": volume,
  "order additive dose": dose,
  "order additive time": time,
  "order target dose": ionDose,
  "order target time": time,
  "order dose dose": dose,
  "order dose time": time,
  "order concentration": concentration,
  "order round": settledDose,
  "order maximum": settledDose,
  "order minimum": settledDose,
  "order diluent": volume,
  "order diluent-volume": volumeOfPatient,
  "order final-volume": volumeOfPatient,
  "order overage": volume,
  "order infuse-over": elapsed,
  "order infuse-at": rate,
  "order weight": weight,
  "order age": time,
  "order body-surface": surface,
  "order lumen": volume,
  "order clearance": clearance,
  "preparation concentration": concentration,
  "preparation nominal-concentration": concentration,
  "preparation volume": volume,
  "preparation use-within": time,
  "preparation after-opening": time,
  "preparation filled-weight": containerWeight,
  "intermediate at": concentration,
  "example weight": weight,
  "example age": time,
  "example body-surface": surface,
  "example lumen": volume,
  "example clearance": clearance,
  "example expect amount": settledDose,
  "example expect volume": volume,
  "example expect strength": concentration,
  "condition dose": settledDose,
  "condition weight": weight,
  "condition age": time,
  "condition body-surface": surface,
  "condition lumen": volume,
  "condition clearance": clearance,
};

const bySlotOfStep: Readonly<Record<string, Expected>> = { amount, volume, time: elapsed };

/** Undefined where no one kind is asked for. */
export function expectedOf({
  block,
  word,
  slot,
}: Pick<StatedMeasure, "block" | "word" | "slot">): Expected | undefined {
  if (block === "step") return bySlotOfStep[slot];
  return byPlace[`${block} ${word} ${slot}`] ?? byPlace[`${block} ${word}`];
}

/** Whether this place asks for an amount in a volume. */
export function takesConcentration(place: Pick<StatedMeasure, "block" | "word" | "slot">): boolean {
  return expectedOf(place) === concentration;
}
