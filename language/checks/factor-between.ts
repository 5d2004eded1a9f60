/** Names the factor by which two figures differ when it is one of the slips that this trade fears. */
import { Exact } from "../quantities/exact.ts";

const feared = ["10", "100", "1000", "1000000"] as const;

/** `, 10 times as much`, or nothing. */
export function factorBetween(stated: Exact, derived: Exact): string {
  if (!stated.isPositive() || !derived.isPositive()) return "";
  for (const factor of feared) {
    const times = Exact.of(factor);
    if (stated.times(times).equals(derived)) return `, ${grouped(factor)} times as much`;
    if (derived.times(times).equals(stated)) return `, a ${grouped(factor)}th of it`;
  }
  return "";
}

function grouped(factor: string): string {
  return factor.replace(/(?<=\d)(?=(?:\d{3})+$)/g, ",");
}
