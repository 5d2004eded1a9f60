/** Conversions that need the substance, and what must be refused. Figures: tests/reference/units, where not said otherwise. */
import { describe, expect, test } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { molarMass } from "../../language/quantities/formula.ts";
import { isRefusal, measure, type Quantity, type Refusal, showQuantity } from "../../language/quantities/quantity.ts";
import { convert, particles, type Substance } from "../../language/quantities/substance.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import { substanceNamed } from "./published-substances.ts";

const unit = (text: string) => findUnit(text).unit!;
const shown = (result: Quantity | Refusal) => (isRefusal(result) ? result.rule : showQuantity(result, 5));
const magnesium = substanceNamed("magnesium sulfate heptahydrate");
const onlyMagnesium: Substance = { ...magnesium, ions: [{ name: "magnesium", charge: 2, perFormula: 1 }] };
const dibasic = substanceNamed("dibasic potassium phosphate");
const ethanol: Substance = {
  name: "ethanol",
  molarMass: molarMass("C2H6O") as Exact,
  ions: [],
  salts: [],
  density: Exact.of("0.789"),
};
const potassiumChloride: Substance = {
  name: "potassium chloride",
  molarMass: molarMass("KCl") as Exact,
  ions: [
    { name: "potassium", charge: 1, perFormula: 1 },
    { name: "chloride", charge: -1, perFormula: 1 },
  ],
  salts: [],
};
const calciumChloride: Substance = {
  name: "calcium chloride dihydrate",
  molarMass: molarMass("CaCl2.2H2O") as Exact,
  ions: [
    { name: "calcium", charge: 2, perFormula: 1 },
    { name: "chloride", charge: -1, perFormula: 2 },
  ],
  salts: [],
};
/** Two cations: an equivalent of the salt is one of neither. */
const rochelle: Substance = {
  name: "potassium sodium tartrate",
  molarMass: molarMass("KNaC4H4O6.4H2O") as Exact,
  ions: [
    { name: "potassium", charge: 1, perFormula: 1 },
    { name: "sodium", charge: 1, perFormula: 1 },
    { name: "tartrate", charge: -2, perFormula: 1 },
  ],
  salts: [],
};
const heparin: Substance = { name: "heparin", ions: [], salts: [] };

describe("between kinds of amount", () => {
  test.each([
    ["4 g", "mmol", magnesium, undefined, "16.229 mmol"],
    ["4 g", "mEq", onlyMagnesium, undefined, "32.459 mEq"],
    ["4 g", "mEq", magnesium, "Mg2+", "32.459 mEq"],
    ["10 mmol", "mEq", onlyMagnesium, undefined, "20 mEq"],
    ["20 mEq", "mmol", magnesium, "Mg2+", "10 mmol"],
    ["500 mg/mL", "mEq/mL", magnesium, "Mg2+", "4.0574 mEq/mL"],
    ["1 g/h", "mmol/h", magnesium, undefined, "4.0574 mmol/h"],
    ["1 g/day", "mmol/h", magnesium, undefined, "0.16906 mmol/h"],
    ["2 mmol", "mg", dibasic, "K+", "174.17 mg"], // 2 mmol of potassium is 1 mmol of K2HPO4
    ["2 mmol", "mg", dibasic, undefined, "348.35 mg"], // without an ion the salt itself is counted
    ["1 mmol", "mEq", dibasic, "K+", "1 mEq"],
    ["15 mmol", "g", dibasic, "P", "2.6126 g"],
    // Salts of one cation and one anion, where every ion makes the same mEq; mg/mL as two lectures on electrolyte solutions give them
    // (Millieq-Millimoles 12-2, 149 and 294 with rounded masses; pharmacalculation.com, milliequivalents, problem 3: 8.114).
    ["2 mEq/mL", "mg/mL", potassiumChloride, undefined, "149.1 mg/mL"],
    ["4 mEq/mL", "mg/mL", calciumChloride, undefined, "294.02 mg/mL"],
    ["1 g", "mEq", magnesium, undefined, "8.1147 mEq"],
    ["10 mL", "g", ethanol, undefined, "7.89 g"],
    ["10 % v/v", "mg/mL", ethanol, undefined, "78.9 mg/mL"],
    ["78.9 mg/mL", "% v/v", ethanol, undefined, "10 % v/v"],
    ["50 g/L", "mOsm/L", substanceNamed("dextrose"), undefined, "252.31 mOsm/L"],
    ["9 g/L", "mOsm/L", substanceNamed("sodium chloride"), undefined, "308.01 mOsm/L"],
    ["4 g", "mg", heparin, undefined, "4,000 mg"],
  ] as const)("%s to %s", (from, to, of, ion, result) => {
    expect(shown(convert(measure(from), unit(to), of, ion))).toBe(result);
  });

  test("there and back is exactly the same", () => {
    for (const [from, to] of [
      ["4 g", "mmol"],
      ["4 g", "mEq"],
      ["3 mEq/mL", "mg/mL"],
    ] as const) {
      const there = convert(measure(from), unit(to), magnesium, "Mg2+") as Quantity;
      const back = convert(there, measure(from).unit, magnesium, "Mg2+") as Quantity;
      expect(back.value.equals(measure(from).value)).toBe(true);
    }
  });
});

describe("refused, with a sentence", () => {
  test.each([
    ["10 mmol", "mEq", rochelle, undefined, "equivalents-need-an-ion", "potassium, sodium, tartrate"],
    ["10 mEq", "mg", rochelle, undefined, "equivalents-need-an-ion", "which ion"],
    ["10 mmol", "mEq", magnesium, "potassium", "equivalents-need-an-ion", "potassium"],
    ["15 mmol", "mEq", dibasic, "P", "equivalents-need-an-ion", "State it in mmol"],
    ["10 mg", "mEq", heparin, undefined, "equivalents-need-an-ion", "charges"],
    ["10 mg", "mmol", heparin, undefined, "needs-formula", "Give its formula"],
    ["10 mL", "g", heparin, undefined, "needs-density", "g/mL"],
    ["5,000 units", "mg", heparin, undefined, "mass-is-not-activity", "label"],
    ["5 mg", "units", magnesium, undefined, "mass-is-not-activity", "label"],
    ["5 mg/mL", "mmol", magnesium, undefined, "different-dimension", "concentration"],
    ["5 mg/kg", "mmol/h", magnesium, undefined, "different-dimension", "body weight"],
    ["5 %", "mg/mL", magnesium, undefined, "percent-needs-kind", "% w/v"],
    ["5 % w/w", "mg/mL", magnesium, undefined, "needs-density", "density"],
    ["5 mg", "mOsm", onlyMagnesium, undefined, "particles-need-a-substance", "do not balance"],
  ] as const)("%s to %s", (from, to, of, ion, rule, words) => {
    const result = convert(measure(from), unit(to), of, ion);
    expect(isRefusal(result) && result.rule).toBe(rule);
    expect(isRefusal(result) && result.reason).toContain(words);
    expect(isRefusal(result) && result.reason).not.toMatch(/invalid|token|dimension/i);
  });
});

describe("particles", () => {
  const of = (...ions: [number, number][]): Substance => ({
    name: "x",
    ions: ions.map(([charge, perFormula], i) => ({ name: `ion${i}`, charge, perFormula })),
    salts: [],
  });
  test.each([
    [of(), "1"],
    [of([1, 1], [-1, 1]), "2"],
    [of([2, 1], [-1, 2]), "3"],
    [of([2, 1], [1, 2]), "3"], // signs left out
    [of([2, 1]), "refused"],
    [of([2, 1], [1, 1]), "refused"],
    [of([1, 1], [0, 1]), "2"],
  ])("case %#", (substance, count) => {
    const result = particles(substance);
    expect(isRefusal(result) ? "refused" : result.toText()).toBe(count);
  });
});
