/** Names the factor by which two figures differ when it is one of the slips that this trade fears. */
import { Exact } from "../quantities/exact.ts";
import { grouped } from "../quantities/number-text.ts";
import { percent } from "./showing.ts";

const feared = ["10", "100", "1000", "1000000"] as const;

/** `, 10 times as much`, or nothing. */
export function factorBetween(stated: Exact, derived: Exact): string {
  if (!stated.isPositive() || !derived.isPositive()) return "";
  for (const factor of feared) {
    const times = Exact.of(factor);
    if (stated.times(times).equals(derived)) return `, ${grouped(factor, "comma")} times as much`;
    if (derived.times(times).equals(stated)) return `, a ${grouped(factor, "comma")}th of it`;
  }
  return "";
}

/** `, 10 times as much`, ` (25 % too much)`, ` (15 times as much)`: nobody reads 1,400 %. Nothing where nothing was wanted. */
export function howFarOff(wanted: Exact, found: Exact): string {
  const factor = factorBetween(wanted, found);
  if (factor !== "" || !wanted.isPositive()) return factor;
  if (found.isAtLeast(wanted.times(Exact.of(10)))) {
    const times = found.plain().over(wanted.plain()).roundedToDigits(3).toText();
    return ` (${grouped(times, "comma")} times as much)`;
  }
  // Rounded, next to nothing would read 100 % too little, as if nothing were there.
  if (found.isPositive() && wanted.isAtLeast(found.times(Exact.of(1000)))) {
    const part = wanted.plain().over(found.plain()).roundedToDigits(2).toText();
    return ` (about a ${grouped(part, "comma")}th of it)`;
  }
  const share = percent(found.minus(wanted).over(wanted).abs());
  return ` (${share} ${found.isAbove(wanted) ? "too much" : "too little"})`;
}
