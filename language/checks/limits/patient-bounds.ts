/** Between which figures a patient lies, whoever it is, and as a newborn, a child or an adult. They are no limits of any dose. */
import type { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { inBase, measure, type Quantity } from "../../quantities/quantity.ts";

export interface PatientBounds {
  least: string;
  most: string;
}

type Written = Readonly<Record<string, readonly [string, string]>>;

const anybody: Written = {
  weight: ["0.2 kg", "500 kg"],
  "body-surface": ["0.05 m2", "4 m2"],
  lumen: ["0.05 mL", "20 mL"],
  clearance: ["1 mL/min", "250 mL/min"],
};

/** Wide, so that only a slip lies outside: common practice, no figure of a growth chart. */
const byPopulation: Readonly<Record<string, Written>> = {
  neonate: { weight: ["0.2 kg", "8 kg"], "body-surface": ["0.05 m2", "0.5 m2"], age: ["0 days", "90 days"] },
  child: { weight: ["0.5 kg", "180 kg"], "body-surface": ["0.08 m2", "3 m2"], age: ["0 days", "21 years"] },
  adult: { weight: ["25 kg", "500 kg"], "body-surface": ["0.8 m2", "4 m2"], age: ["12 years", "120 years"] },
};

/** @returns undefined for an input that nobody bounds */
export function patientBounds(input: string, population: string | undefined): PatientBounds | undefined {
  const written = (population === undefined ? undefined : byPopulation[population]?.[input]) ?? anybody[input];
  if (!written) return undefined;
  return { least: written[0], most: written[1] };
}

/** Undefined where the figure measures something else. */
export function isWithin(value: Quantity, { least, most }: PatientBounds): boolean | undefined {
  const [figure, from, to] = [value, measure(least), measure(most)].map(alike);
  if (!figure || !from || !to || figure.dimension !== from.dimension) return undefined;
  return figure.value.isAtLeast(from.value) && figure.value.isAtMost(to.value);
}

/** Days and years are laid side by side as hours. */
function alike(quantity: Quantity): { value: Exact; dimension: string } {
  const time = hours(quantity);
  return time
    ? { value: time, dimension: "time" }
    : { value: inBase(quantity), dimension: quantity.unit.dimension.key };
}
