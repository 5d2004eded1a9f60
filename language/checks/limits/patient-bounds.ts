/** Between which figures a patient lies, whoever it is, and as a newborn, a child or an adult. They are no limits of any dose. */
import type { WrittenBounds } from "../written-bounds.ts";

type ByInput = Readonly<Record<string, WrittenBounds>>;

const anybody: ByInput = {
  weight: ["0.2 kg", "500 kg"],
  "body-surface": ["0.05 m2", "4 m2"],
  lumen: ["0.05 mL", "20 mL"],
  clearance: ["1 mL/min", "250 mL/min"],
};

/** Wide, so that only a slip lies outside: common practice, no figure of a growth chart. */
const byPopulation: Readonly<Record<string, ByInput>> = {
  neonate: { weight: ["0.2 kg", "8 kg"], "body-surface": ["0.05 m2", "0.5 m2"], age: ["0 days", "90 days"] },
  child: { weight: ["0.5 kg", "180 kg"], "body-surface": ["0.08 m2", "3 m2"], age: ["0 days", "21 years"] },
  adult: { weight: ["25 kg", "500 kg"], "body-surface": ["0.8 m2", "4 m2"], age: ["12 years", "120 years"] },
};

/** @returns undefined for an input that nobody bounds */
export function patientBounds(input: string, population: string | undefined): WrittenBounds | undefined {
  return (population === undefined ? undefined : byPopulation[population]?.[input]) ?? anybody[input];
}
