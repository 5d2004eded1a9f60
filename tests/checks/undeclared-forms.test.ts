/**
 * A form of a drug in print of which the library does not say how much is in it: nothing is known of its figure within the bounds of what such
 * forms weigh, and that is said aloud; beyond them the figure is wrong. Theophylline is 0.79 of aminophylline, midazolam 0.9 of its
 * hydrochloride, prednisolone 0.74 of its sodium phosphate, phenytoin two thirds of fosphenytoin (from memory, by molar masses).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { sayingTold } from "./printed-on-samples.ts";

const names = ["form-not-compared", "drug-name-not-known", "title-contradicts-order", "label-text-contradicts-order"];
const isMeant = (name: string) => names.includes(name);
const told = (recipe: string, saying: string) => sayingTold(recipe, saying, isMeant);

const aminophylline = "aminophylline-250mg";
const inSaline = "in sodium chloride 0.9 % 500 mL";

describe("the part that acts", () => {
  it.each([
    "Contains 197 mg of theophylline",
    "Contains theophylline 197 mg",
    "Each bag holds 197 mg theophylline",
    "Theophylline 0.39 mg/mL",
    `title: Aminophylline 250 mg (197 mg theophylline) ${inSaline}`,
    `title: Aminophylline 250 mg (theophylline 197 mg) ${inSaline}`,
    `title: Aminophylline 250 mg (= 197 mg of theophylline) ${inSaline}`,
  ])("%s is laid against nothing", (saying) => {
    const [note, ...more] = told(aminophylline, saying);
    expect(note).toContain("beside theophylline, and the library does not say how much of that is in aminophylline");
    expect(more).toEqual([]);
  });
  it.each([
    ["Contains 300 mg of theophylline", "300 mg of theophylline; the order says 250 mg of aminophylline"],
    ["Contains 19.7 mg of theophylline", "19.7 mg of theophylline; the order says 250 mg of aminophylline"],
    ["Theophylline 250 mg", "250 mg of theophylline; the order says 250 mg of aminophylline"],
    ["Contains 250 mg of theophylline", "250 mg of theophylline; the order says 250 mg of aminophylline"],
    [
      `title: Aminophylline 250 mg (theophylline 250 mg) ${inSaline}`,
      "250 mg of theophylline; the order comes to 250 mg of aminophylline",
    ],
    ["Contains 197 mg of hydrocortisone", "197 mg of hydrocortisone; the order says 250 mg"],
  ])("%s is told", (saying, said) => expect(told(aminophylline, saying)).toEqual([said]));
  it("and the whole may be exchanged", () => {
    expect(told(aminophylline, `title: Aminophylline 197 mg (theophylline 250 mg) ${inSaline}`)).toEqual([
      "197 mg; the order says 250 mg",
      "250 mg of theophylline; the order comes to 250 mg of aminophylline",
    ]);
  });
  it("lets no other drug by", () => {
    expect(told(aminophylline, "Theophylline 197 mg, hydrocortisone 100 mg").join()).toContain("beside hydrocortisone");
  });
});

describe("a salt that is not declared", () => {
  it.each([
    ["midazolam-50mg", "title: Midazolam 50 mg (midazolam hydrochloride 55.6 mg) in sodium chloride 0.9 % 100 mL"],
    ["midazolam-50mg", "Midazolam 50 mg (midazolam hydrochloride 55.6 mg)"],
    ["midazolam-50mg", "55.6 mg of midazolam hydrochloride"],
    ["midazolam-50mg", "Midazolam hydrochloride 55.6 mg"],
    ["furosemide-50mg", "Furosemide 50 mg (furosemide sodium 53 mg)"],
    ["vancomycin-1g", "Vancomycin hydrochloride 1.07 g"],
  ])("%s: %s is laid against nothing", (recipe, saying) => {
    expect(told(recipe, saying)).toEqual([expect.stringContaining("laid against nothing")]);
  });
  it.each([
    [
      "midazolam-50mg",
      "title: Midazolam 50 mg (midazolam hydrochloride 556 mg) in sodium chloride 0.9 % 100 mL",
      "556 mg; the order says 50 mg",
    ],
    ["midazolam-50mg", "Midazolam hydrochloride 100 mg", "100 mg; the order says 50 mg"],
    ["vancomycin-1g", "Vancomycin hydrochloride 10 g", "10 g; the order says 1 g"],
    ["vancomycin-1g", "Vancomycin hydrochloride 500 mg", "500 mg; the order says 1 g"],
    [
      "ketamine-500mg-of-50",
      "Ketamine hydrochloride 50 mg",
      "50 mg of ketamine-hydrochloride; the order says 576.7 mg",
    ],
  ])("%s: %s is told", (recipe, saying, said) => expect(told(recipe, saying)).toEqual([said]));
  it.each([
    ["midazolam-50mg", "Midazolam 50 mg (as hydrochloride)"],
    ["midazolam-50mg", "Midazolam hydrochloride 50 mg"],
    ["vancomycin-1g", "Vancomycin 1 g. Sodium chloride 9 mg/mL as diluent"],
    // Declared: salts and ions are worked out.
    ["noradrenaline-8mg-syringe", "Noradrenaline 8 mg (noradrenaline tartrate 16 mg)"],
    ["calcium-1g-syringe", "Calcium gluconate 1 g (calcium 93 mg)"],
  ])("%s: %s is in order", (recipe, saying) => expect(told(recipe, saying)).toEqual([]));
});

/** Of a drug that is declared as `name`, without its formula. */
function ofDrug(key: string, name: string, title: string): string[] {
  const text = example(
    ["Magnesium sulfate 4 g in", `${title} in`],
    ['  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n', ""],
  )
    .replaceAll(/\bmagnesium-sulfate\b/g, key)
    .replace("magnesium sulfate heptahydrate", name);
  return findingsOf(text)
    .filter((found) => isMeant(found.name))
    .map((found) => `${found.name} ${found.message}`);
}

it("may be counted by custom as what acts of it", () => {
  const title = "Fosphenytoin 4 g (phenytoin equivalents 4 g)";
  expect(ofDrug("fosphenytoin", "fosphenytoin sodium", title)).toEqual([]);
});

describe("the substance of a salt of which nothing is declared", () => {
  it.each([
    ["prednisolone-phosphate", "prednisolone sodium phosphate", "Prednisolone sodium phosphate 4 g (prednisolone 3 g)"],
    [
      "prednisolone-phosphate",
      "prednisolone sodium phosphate",
      "Prednisolone sodium phosphate 4 g (3 g of prednisolone)",
    ],
    ["magnesium-sulfate", "magnesium sulfate", "Magnesium sulfate 4 g (magnesium 394 mg)"],
    ["fosphenytoin", "fosphenytoin sodium", "Fosphenytoin 4 g (phenytoin 2.67 g)"],
    ["colistimethate", "colistimethate sodium", "Colistimethate 4 g (1.67 g of colistin)"],
  ])("%s, %s: %s is laid against nothing", (key, name, title) => {
    const [note, ...more] = ofDrug(key, name, title);
    expect(note).toMatch(/^form-not-compared/);
    expect(more).toEqual([]);
  });
  it.each([
    [
      "prednisolone-phosphate",
      "prednisolone sodium phosphate",
      "Prednisolone sodium phosphate 4 g (prednisolone 300 mg)",
    ],
    ["prednisolone-phosphate", "prednisolone sodium phosphate", "Prednisolone 3 g"],
    ["fosphenytoin", "fosphenytoin sodium", "Phenytoin 4 g"],
    ["fosphenytoin", "fosphenytoin sodium", "Fosphenytoin 4 g (phenytoin 4 g)"],
  ])("%s, %s: %s is told", (key, name, title) => {
    expect(ofDrug(key, name, title)).toEqual([expect.stringMatching(/^title-contradicts-order/)]);
  });
});
