/** Wrong figures found in print (tests/reference/units/published-errors.json): the tool must not agree with one of them. */
import { describe, expect, test } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { molarMass } from "../../language/quantities/formula.ts";
import { measure, type Quantity, times } from "../../language/quantities/quantity.ts";
import { convert } from "../../language/quantities/substance.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import published from "../reference/units/published-errors.json";
import { agreesWithPrinted, substanceNamed } from "./published-substances.ts";

const unit = (text: string) => findUnit(text).unit!;
const inMEq = (q: Quantity, name: string, ion: string): Exact => {
  const result = convert(q, unit(`mEq${q.unit.spelling.includes("/") ? "/mL" : ""}`), substanceNamed(name), ion);
  if ("refused" in result) throw new Error(result.reason);
  return result.value;
};

/** What the tool computes for the thing the row speaks of; absent where it is no conversion. */
const computed: Readonly<Record<string, () => Exact>> = {
  "pe-01": () => inMEq(times(measure("100 mg/mL"), measure("10 mL")), "calcium gluconate", "Ca2+"),
  "pe-02": () => times(measure("130 mEq/L"), measure("100 mL")).value,
  "pe-03": () => molarMass("Mg") as Exact,
  "pe-04": () => molarMass("P") as Exact,
  "pe-05": () => molarMass("CaCl2.2H2O") as Exact,
  "pe-06": () => measure("5 % w/v").value.times(unit("% w/v").factor).over(unit("mg/mL").factor),
  "pe-10": () => inMEq(measure("100 mg/mL"), "calcium chloride", "Ca2+"),
};
const noConversion: Readonly<Record<string, string>> = {
  "pe-07": "pore size of a filter: a fact of the device",
  "pe-08": "one unit of insulin: units are not exchanged at all",
  "pe-09": "a citation",
};

describe("published errors", () => {
  test.each(published.rows.map((row) => [row.id, row] as const))("%s", (id, row) => {
    if (noConversion[id]) return;
    const value = computed[id]!();
    const right = /^[\d.]+/.exec(row.correct.value)![0];
    expect(agreesWithPrinted(value, right), `${value.toText()} beside the correct ${right}`).toBe(true);
    expect(value.equals(Exact.of(/^[\d.]+/.exec(row.claimAsPublished.value)![0]))).toBe(false);
    // pe-10 is only rounded; all others are wrong in any rounding.
    if (id !== "pe-10") expect(agreesWithPrinted(value, row.claimAsPublished.value)).toBe(false);
  });
});
