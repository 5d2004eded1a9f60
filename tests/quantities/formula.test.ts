/** Molar masses: every derived row of tests/reference/units/conversions.json is in conversions.test.ts; here the reading of formulas. */
import { describe, expect, test } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { composition, molarMass } from "../../language/quantities/formula.ts";

const mass = (formula: string) => {
  const result = molarMass(formula);
  return result instanceof Exact ? result.toText() : "refused";
};

describe("formulas", () => {
  test.each([
    ["MgSO4.7H2O", "246.466"],
    ["MgSO4·7H2O", "246.466"],
    ["MgSO4 . 7H2O", "246.466"],
    ["MgSO4*7H2O", "246.466"],
    ["Ca(C6H11O7)2", "430.372"],
    ["Ca(C6H11O7)2.H2O", "448.387"],
    ["C6H12O6.0.5H2O", "189.1635"], // a hemihydrate: 180.156 and half of 18.015
    ["NH4Cl", "53.489"],
    ["(NH4)2SO4", "132.134"],
  ])("%s is %s g/mol", (formula, expected) => expect(mass(formula)).toBe(expected));

  test("the dot of a hydrate is no decimal point", () => {
    // A parser that reads 4.7 oxygen in MgSO4.7H2O gives 149.6 g/mol, 40 % too little.
    const atoms = composition("MgSO4.7H2O");
    if ("refused" in atoms) throw new Error(atoms.reason);
    expect([...atoms].map(([element, count]) => `${element} ${count.toText()}`)).toEqual(
      ["Mg 1", "O 11", "S 1", "H 14"].sort((a, b) => order(a) - order(b)),
    );
    function order(text: string): number {
      return [...(atoms as ReadonlyMap<string, Exact>).keys()].indexOf(text.split(" ")[0]!);
    }
  });

  test.each([
    "",
    "mgso4",
    "MGSO4",
    "Ph",
    "X",
    "D2O",
    "NaCl.",
    ".NaCl",
    "H2O)",
    "(H2O",
    "()2",
    "NaCl+",
    "Na+Cl-",
    "H-1",
    "C0",
    "CO2.0H2O",
    "[13C]H4",
    "C1-3",
    "Na Cl",
    "A".repeat(200),
    "H9999",
  ])("%s is refused with a sentence", (formula) => {
    const result = molarMass(formula);
    expect(result).not.toBeInstanceOf(Exact);
    expect((result as { reason: string }).reason).toMatch(/[A-Z].*\./);
  });
});
