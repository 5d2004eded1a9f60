/**
 * Lines and titles in styles that hospitals print (common practice): double statements, a diluent on a line of its own, other names of
 * fluids, amounts over volumes. Figures are those of the sample recipes: magnesium sulfate heptahydrate 4 g is 16.2 mmol, so 32.5 mEq of
 * magnesium, and 8 mL of 500 mg/mL in 100 mL; calcium gluconate 1 g is 10 mL of 10 %.
 */
import { describe, expect, it } from "vitest";
import { Library } from "../../language/library.ts";
import { readPages } from "../spec/pages.ts";
import { label, title } from "./printed-on-samples.ts";

const [magnesium, calcium, noradrenaline] = ["magnesium-4g", "calcium-2.3mmol", "noradrenaline-8mg-syringe"];

describe("strengths of the diluent's volume, in percent as in mg/mL", () => {
  it.each([
    "Magnesium sulfate 4 % 100 mL",
    "Magnesium sulfate 40 mg/mL 100 mL",
    "Magnesium sulfate 4 g (4 %) in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 4 g (40 mg/mL) in sodium chloride 0.9 % 100 mL",
    "Magnesium sulfate 4 % 100 mL in sodium chloride 0.9 %",
    "Magnesium sulfate 40 mg/mL 100 mL in sodium chloride 0.9 %",
    "Magnesium sulfate 3.7 % 108 mL",
  ])("the title %s is right", (words) => {
    expect(title(magnesium, words)).toEqual([]);
  });

  it.each([
    "Magnesium sulfate 8 % 100 mL",
    "Magnesium sulfate 80 mg/mL 100 mL",
    "Magnesium sulfate 4 % 50 mL",
    "Magnesium sulfate 40 mg/mL 50 mL",
    "Magnesium sulfate 8 % 100 mL in sodium chloride 0.9 %",
    "Magnesium sulfate 80 mg/mL 100 mL in sodium chloride 0.9 %",
  ])("the title %s is told once", (words) => {
    expect(title(magnesium, words)).toHaveLength(1);
  });

  it.each(["Magnesium sulfate 4 %, 100 mL", "Magnesium sulfate 40 mg/mL, 100 mL"])(
    "the label %s counts what is in the bag",
    (words) => {
      expect(label(magnesium, words)).toHaveLength(1);
    },
  );
});

describe("titles", () => {
  it.each([
    [
      calcium,
      "Calcium chloride 10 % 10 mL in glucose 5 % 100 mL",
      ["calcium chloride; the order says calcium-gluconate"],
    ],
    // Told by title-without-drug.
    [magnesium, "Manganese sulfate 50 % 8 mL in sodium chloride 0.9 % 100 mL", []],
    [noradrenaline, "Noradrenaline 8 mg/100 mL in glucose 5 %", ["100 mL; the order says 50 mL"]],
    [noradrenaline, "Noradrenaline 4 mg/50 mL in glucose 5 %", ["4 mg; the order says 8 mg"]],
    [noradrenaline, "Noradrenaline 8 mg/50 mL in glucose 5 %", []],
    // 20 g of the sulfate holds 1.97 g of magnesium: the figure is the salt's.
    [
      "magnesium-20g",
      "Magnesium sulfate 2 g in sodium chloride 0.9 %, made up to 500 mL",
      ["2 g; the order says 20 g"],
    ],
    ["calcium-1g-syringe", "Calcium gluconate 90 mg in sodium chloride 0.9 %, 50 mL", ["90 mg; the order says 1 g"]],
    ["vancomycin-500mg", "Vancomycin 500 mg/100 mL (50 mg/mL)", ["50 mg/mL; the order comes to 4.545 mg/mL"]],
    ["vancomycin-500mg", "Vancomycin 500 mg/100 mL (5 mg/mL)", []],
    [noradrenaline, "Noradrenaline 8 mg from 4 mg/4 mL ampoules in glucose 5 %, syringe of 50 mL", []],
    [noradrenaline, "Noradrenaline 8 mg from 4 mg/2 mL ampoules in glucose 5 %, 50 mL", ["2 mL; the order says 50 mL"]],
  ])("%s: %s", (recipe, words, said) => {
    expect(title(recipe, words)).toEqual(said);
  });
});

describe("lines of the label", () => {
  it.each([
    [magnesium, "Magnesium sulfate 4 g (16.2 mmol) in 100 mL"],
    ["magnesium-8mmol", "Magnesium 8 mmol = 16 mEq"],
    ["potassium-20mmol", "Potassium chloride 20 mmol (20 mEq) in 1 L"],
    ["calcium-1g-syringe", "Calcium gluconate 1 g = 10 mL of 10 %"],
    ["amiodarone-300mg", "Diluent: dextrose 5 %"],
    ["amiodarone-300mg", "Amiodarone 300 mg in 250 mL of dextrose 5 %"],
    ["potassium-40meq", "Potassium chloride 40 mEq (3 g) in 0.9 % saline"],
    ["lipid-20g-filtered", "In-line filter 1.2 micrometre"],
    ["magnesium-20g", "Magnesium sulfate 20 g (magnesium 1.97 g)"],
    ["magnesium-20g", "Magnesium sulfate 20 g = elemental magnesium 2 g"],
    ["magnesium-20g", "20 g magnesium sulfate in 500 mL"],
    ["calcium-1g-syringe", "Calcium 89 mg"],
    ["digoxin-40mcg", "DIGOXIN 40 micrograms (0.04 mg)"],
    ["phenylephrine-10mg-100mL", "Phenylephrine 100 mcg/mL, 1 mL bolus = 100 mcg"],
    [noradrenaline, "8 mg in 50 mL (16 mg/100 mL)"],
  ])("%s: %s is right", (recipe, words) => {
    expect(label(recipe, words)).toEqual([]);
  });

  it.each([
    [magnesium, "Magnesium sulfate 4 g (16.2 mEq) in 100 mL"],
    ["magnesium-8mmol", "Magnesium 8 mmol = 8 mEq"],
    ["potassium-20mmol", "Potassium chloride 20 mmol (40 mEq) in 1 L"],
    [magnesium, "Magnesium sulfate 4 g = 80 mL of 50 %"],
    ["calcium-1g-syringe", "Calcium gluconate 1 g = 1 mL of 10 %"],
    [magnesium, "Magnesium sulfate 4 g. Diluent: glucose 5 % 100 mL. Total volume: 108 mL."],
    ["amiodarone-300mg", "Amiodarone 300 mg in 250 mL of dextrose 10 %"],
    ["potassium-40meq", "Potassium chloride 40 mEq in dextrose 5 % 1 L"],
    ["potassium-40meq", "Potassium chloride 40 mEq in 1 L of glucose 5 %"],
    ["lipid-20g-filtered", "Infuse through a 0.2 micrometre filter"],
    ["magnesium-20g", "Magnesium sulfate 2 g in 500 mL"],
    ["magnesium-20g", "2 g magnesium sulfate in 500 mL"],
    ["magnesium-20g", "20 g magnesium chloride in 500 mL"],
    ["calcium-1g-syringe", "Calcium gluconate 90 mg"],
    ["digoxin-40mcg", "DIGOXIN 40 micrograms (0.4 mg)"],
    ["phenylephrine-10mg-100mL", "Phenylephrine 100 mcg/mL, 10 mL bolus = 100 mcg"],
    ["insulin-100-units", "Contains potassium chloride 20 mmol"],
  ])("%s: %s is told once", (recipe, words) => {
    expect(label(recipe, words)).toHaveLength(1);
  });

  it("may give a dose by weight in another form of the drug", () => {
    const page = readPages().find(({ name }) => name === "kinds-of-preparation.md")!;
    const { given, text } = page.cases.find((each) => each.text.includes("recipe caffeine-neonate"))!;
    const told = (line: string) => {
      const library = new Library({ asOf: "2026-11-25" });
      library.open(
        "a.misce",
        `${given}${text.trimEnd().replace(/}$/, `\n  label-text {\n    line  "${line}"\n  }\n}\n`)}`,
      );
      return library.findings("a.misce").filter(({ name }) => name === "label-text-contradicts-order");
    };
    // Caffeine citrate 20 mg is caffeine 10 mg, as the page declares it.
    expect(told("Caffeine citrate 20 mg/kg = caffeine 10 mg/kg")).toEqual([]);
    expect(told("Caffeine citrate 20 mg/kg = caffeine 5 mg/kg")).toHaveLength(1);
    expect(told("Caffeine citrate 10 mg/kg")).toHaveLength(1);
  });
});
