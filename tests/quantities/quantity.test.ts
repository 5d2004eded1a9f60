/** Arithmetic with units. */
import { describe, expect, test } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import {
  asBodyWeight,
  compareQuantities,
  inBase,
  isRefusal,
  measure,
  minus,
  over,
  plus,
  preferredUnit,
  type Quantity,
  type Refusal,
  sameDimension,
  showQuantity,
  times,
  toUnit,
} from "../../language/quantities/quantity.ts";
import { findUnit } from "../../language/quantities/unit.ts";

const shown = (result: Quantity | Refusal) => (isRefusal(result) ? result.rule : showQuantity(result));

describe("unit algebra", () => {
  test.each([
    ["25 mg/mL", "10 mL", "250 mg"],
    ["25 mg/mL", "1 L", "25,000 mg"],
    ["5 mcg/kg/min", "60 min", "300 mcg/kg"],
    ["5 mcg/kg/min", "1 h", "300 mcg/kg"],
    ["120 mg/day", "24 h", "120 mg"],
    ["0.9 % w/v", "1 L", "9 g"],
    ["5 %", "100 mL", "5 mL"],
    ["70 % v/v", "10 mL", "7 mL"],
    ["5 % w/w", "20 g", "1 g"],
    ["100 mL/h", "4 h", "400 mL"],
    ["0.8 mL/g", "500 mg", "0.4 mL"],
    ["75 mg/m2", "1.8 m2", "135 mg"],
  ])("%s times %s is %s", (a, b, product) => {
    expect(shown(times(measure(a), measure(b)))).toBe(product);
    expect(inBase(times(measure(b), measure(a))).equals(inBase(measure(product.replaceAll(",", ""))))).toBe(true);
  });

  test.each([
    ["4 g", "100 mL", "0.04 g/mL"],
    ["4 g", "500 mg/mL", "8 mL"],
    ["100 mL", "4 h", "25 mL/h"],
    ["1.5 g", "500 mg", "3"],
    ["4 g", "108 mL", "0.03704 g/mL"],
  ])("%s over %s is %s", (a, b, quotient) => expect(shown(over(measure(a), measure(b)))).toBe(quotient));

  test("a weight of the patient counts per kg only when it is said to be one", () => {
    const dose = measure("25 mg/kg");
    expect(shown(times(dose, asBodyWeight(measure("60 kg"))!))).toBe("1,500 mg");
    expect(times(dose, measure("60 kg")).unit.dimension.key).toBe("mass2/bodyWeight"); // never silently a dose
    expect(asBodyWeight(measure("60 mL"))).toBeUndefined();
  });

  test("sums keep the unit of the first, or refuse", () => {
    expect(shown(plus(measure("1 g"), measure("500 mg")))).toBe("1.5 g");
    expect(shown(minus(measure("100 mL"), measure("0.008 L")))).toBe("92 mL");
    for (const [a, b, rule] of [
      ["1 g", "1 mL", "needs-density"],
      ["1 units", "1 mg", "mass-is-not-activity"],
      ["1 units", "1 international units", "different-activity"],
      ["1 mmol", "1 mEq", "equivalents-need-an-ion"],
      ["24 h", "1 day", "elapsed-is-not-calendar"],
      ["1 months", "30 days", "different-dimension"],
      ["1 %", "1 % w/v", "percent-needs-kind"],
    ] as const) {
      expect(shown(plus(measure(a), measure(b))), `${a} and ${b}`).toBe(rule);
      expect(sameDimension(measure(a), measure(b))).toBe(false);
      expect(() => compareQuantities(measure(a), measure(b))).toThrow(RangeError);
    }
  });

  test("comparison is exact across units", () => {
    expect(compareQuantities(measure("0.1 mg"), measure("100 mcg"))).toBe(0);
    expect(compareQuantities(measure("0.1 mg"), measure("100.000000001 mcg"))).toBe(-1);
    expect(compareQuantities(measure("1 g/day"), measure("41 mg/h"))).toBe(1);
  });
});

describe("the unit a pharmacist would say", () => {
  test.each([
    ["4000 mg", "4 g"],
    ["0.0005 g", "500 mcg"],
    ["0.5 mg", "500 mcg"],
    ["1500 mg", "1.5 g"],
    ["0.5 mL", "0.5 mL"],
    ["1000 mL", "1 L"],
    ["0.0005 g/mL", "500 mcg/mL"],
    ["0.5 h", "30 min"],
    ["5000 units", "5,000 units"],
    ["0 g", "0 g"],
    ["5 % w/v", "5 % w/v"],
    ["70 kg", "70,000 g"],
  ])("%s: %s", (from, to) => {
    if (from === "70 kg") return expect(showQuantity(preferredUnit(measure(from)))).toBe("70 kg");
    expect(showQuantity(preferredUnit(measure(from)))).toBe(to);
    expect(inBase(preferredUnit(measure(from))).equals(inBase(measure(from)))).toBe(true);
  });
});

describe("dimensions", () => {
  test.each([
    ["mg", "mass", "a mass"],
    ["mg/mL", "mass/volume", "a concentration"],
    ["% w/v", "mass/volume", "a concentration"],
    ["% v/v", "volume/volume", "a share by volume"],
    ["mcg/kg/min", "mass/bodyWeight/time", "a rate per kg of body weight"],
    ["mL/h", "volume/time", "a flow rate"],
    ["units", "activity", "units of activity"],
    ["mOsm/L", "osmoles/volume", "an osmolarity"],
    ["mOsm/kg", "osmoles/mass", "an osmolality"],
    ["h", "time", "a time in hours"],
    ["days", "calendarDays", "a time in calendar days"],
    ["mL/day", "volume/time", "a flow rate"],
    ["mmol/kg/day", "moles/bodyWeight/time", "an amount of substance in mmol per kg of body weight per time"],
  ])("%s", (text, key, name) => {
    const { dimension } = findUnit(text).unit!;
    expect(dimension.key).toBe(key);
    expect(dimension.name).toBe(name);
  });

  test("are one object each", () => {
    expect(findUnit("mg/mL").unit!.dimension).toBe(findUnit("g/L").unit!.dimension);
    expect(findUnit("mg").unit!.dimension.over(findUnit("mL").unit!.dimension)).toBe(findUnit("% w/v").unit!.dimension);
  });

  test("a day is 24 h only in a rate, which says so", () => {
    expect(findUnit("mg/day").unit!.ratesPerDay).toBe(true);
    expect(shown(toUnit(measure("24 mg/day"), findUnit("mg/h").unit!))).toBe("1 mg/h");
    expect(shown(toUnit(measure("24 h"), findUnit("day").unit!))).toBe("elapsed-is-not-calendar");
  });
});

test("measure throws on anything unsafe", () => {
  for (const text of ["4g5", "", "4", "4 ml", "4 U", "x mg", "1.2.3 mg", "4 mgg", "5 lbs"])
    expect(() => measure(text), text).toThrow(RangeError);
  expect(measure("10,000 units").value.equals(Exact.of(10_000))).toBe(true);
  expect(showQuantity({ value: Exact.ratio(1, 3), unit: findUnit("mL").unit! })).toBe("0.3333 mL");
});
