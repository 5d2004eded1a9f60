/**
 * Unit expressions of charts, pumps, labels and laboratories, each against the independent converter @lhncbc/ucum-lhc: what the
 * language reads means there the same, and what it refuses is refused although that converter knows it. Expressions: common practice
 * of labels and drug charts, from memory; sizes: the converter (binary floating point, hence 1e-9).
 */
import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { isRefusal, toUnit } from "../../language/quantities/quantity.ts";
import { findUnit } from "../../language/quantities/unit.ts";

interface OtherConverter {
  convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null };
  validateUnitString(unit: string): { status: string };
}
const { UcumLhcUtils } = createRequire(import.meta.url)("@lhncbc/ucum-lhc") as {
  UcumLhcUtils: { getInstance(): OtherConverter };
};
const ucum = UcumLhcUtils.getInstance();

/** As written, and the unit that it is turned into. */
const read: readonly [string, string][] = [
  ["mcg/kg/min", "mg/kg/h"],
  ["ng/kg/min", "mcg/kg/h"],
  ["nanograms/kg/min", "mcg/kg/day"],
  ["mg/kg/day", "mcg/kg/min"],
  ["g/kg/day", "mg/kg/min"],
  ["mmol/kg/day", "mcmol/kg/h"],
  ["mEq/kg/day", "mEq/kg/h"],
  ["mL/kg/day", "mL/kg/h"],
  ["mL/m2/day", "L/m2/h"],
  ["mg/m2/day", "g/m2/week"],
  ["g/m2/week", "mg/m2/h"],
  ["mL/min/m2", "L/h/m2"],
  ["mg/mL/h", "g/L/min"],
  ["mEq/L/h", "mEq/mL/min"],
  ["mcg/s", "mg/h"],
  ["mg/hr", "mcg/min"],
  ["L/day", "mL/min"],
  ["cc/h", "mL/min"],
  ["gtt/min", "drops/h"],
  ["drops/mL", "drops/L"],
  ["mosm/L", "mOsm/mL"],
  ["mosmol/L", "Osm/L"],
  ["osmol/L", "mOsm/dL"],
  ["mval/L", "Eq/L"],
  ["µmol/L", "nmol/mL"],
  ["umol/L", "mmol/L"],
  ["μg", "nanograms"],
  ["ug/mL", "mg/L"],
  ["mcg/L", "pg/mL"],
  ["pg/mL", "nanograms/L"],
  ["mcg/dL", "nanograms/mL"],
  ["g/dL", "% w/v"],
  ["%w/v", "mg/mL"],
  ["% (w/v)", "g/L"],
  ["g/cm3", "kg/L"],
  ["cm3", "mcL"],
  ["uL", "dL"],
  ["cL", "mL"],
  ["wk", "days"],
  ["sec", "min"],
  ["grain", "mg"],
  ["mol/L", "mmol/mL"],
  ["nmol/mL", "mcmol/L"],
];

/** Valid elsewhere, and no unit of a recipe: counted otherwise, of another trade, or with two readings. */
const refused =
  "g% mg% kg/m3 mm3 mg.min/mL mg/mL.min kcal kJ kPa cal/mL Bq MBq mCi MBq/mL g/g mg/g mL/mL {drops}/min [iU]/mL [USP'U]/mL 10*6.[iU] kU mU/min min-1 /min cm m F K dag hg hL fl".split(
    " ",
  );

describe("unit expressions", () => {
  it.each(read)("%s is turned into %s as the other converter does", (from, to) => {
    const [one, other] = [findUnit(from).unit, findUnit(to).unit];
    if (!one || !other) throw new Error(`${one ? to : from} is not read`);
    const ours = toUnit({ value: Exact.of("7.3"), unit: one }, other);
    if (isRefusal(ours)) throw new Error(ours.reason);
    const theirs = ucum.convertUnitTo(one.ucum, 7.3, other.ucum);
    expect(theirs.status).toBe("succeeded");
    const expected = ours.value.toDecimal().toNumber();
    expect(Math.abs(theirs.toVal! - expected) / expected).toBeLessThan(1e-9);
  });

  it.each(refused)("%s is a unit there and none of a recipe", (text) => {
    expect(ucum.validateUnitString(text).status).toBe("valid");
    expect(findUnit(text).unit).toBeUndefined();
  });

  it("are 43 read and 33 refused", () => expect([read.length, refused.length]).toEqual([43, 33]));
});
