/**
 * For whom titles and label lines say that they are made, names of other drugs alone in a line, and contents in other words. The recipes are
 * those of the sample library. That a newborn weighs up to 8 kg and an adult from 25 kg is wide on purpose (common practice).
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

const adult = "insulin-100-units";
const newborn = "digoxin-40mcg";
const child = "ceftriaxone-300mg-syringe";
const ranged = "vancomycin-loading";

describe("for whom", () => {
  areTold(adult, [
    ["Neonates only", "Neonates", "order says adult"],
    "NICU",
    "PICU",
    ["For infants", "infants"],
    ["For babies", "babies"],
    ["Paediatric ward", "Paediatric"],
  ]);
  areTold(newborn, [
    ["title: Adult digoxin 40 mcg, syringe from a 50 mcg/mL dilution", "Adult", "order says neonate"],
    ["For adults", "adults"],
    "PICU",
  ]);
  areTold(child, [
    ["title: Ceftriaxone 300 mg for adults in sodium chloride 0.9 %, syringe of 10 mL", "adults"],
    ["For preterm babies", "preterm"],
  ]);
  const weight = "order says weight 40 kg to 120 kg";
  areTold(ranged, [
    ["title: Neonatal vancomycin loading dose by body weight in sodium chloride 0.9 %", "Neonatal", weight],
    ["title: Vancomycin loading dose for newborns in sodium chloride 0.9 %", "newborns", weight],
    ["NICU", "NICU", weight],
  ]);
  areSilent(adult, [
    "Adults only",
    "Keep out of reach of children",
    "Keep out of the sight and reach of children",
    "Store away from children",
    "Not for children",
    "ICU",
  ]);
  areSilent(newborn, [
    "title: Neonatal digoxin 40 mcg, syringe from a 50 mcg/mL dilution",
    "NICU",
    "For infants",
    "For babies",
    "Keep out of reach of children",
  ]);
  areSilent(child, ["For children", "For infants", "For adolescents"]);
  areSilent(ranged, [
    "title: Adult vancomycin loading dose by body weight in sodium chloride 0.9 %",
    "title: Paediatric vancomycin loading dose in sodium chloride 0.9 %",
  ]);
  areSilent("magnesium-4g", ["For adults", "For neonates"]);

  it("is held against a weight without a population, and against the whole of its range", () => {
    const told = (line: string, weight: string) =>
      findingsOf(
        example(
          ["    dose            4 g per bag\n", `    dose            4 g per bag\n    weight          ${weight}\n`],
          ["rate           up to 9 g/h", "rate           up to 9000 mg/kg/h"],
          ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
        ),
      ).filter(({ name }) => name === "label-text-contradicts-order");
    expect(told("For adults", "2 kg to 4 kg")[0]?.message).toContain("says adults; the order says weight 2 kg to 4 kg");
    expect(told("For newborns", "70 kg")[0]?.message).toContain("says newborns; the order says weight 70 kg");
    expect(told("For adults", "20 kg to 60 kg")).toEqual([]);
    expect(told("For newborns", "2 kg to 4 kg")).toEqual([]);
    expect(told("For babies and adults", "2 kg to 90 kg")).toEqual([]);
  });
});

describe("another drug alone in a line", () => {
  areTold("midazolam-50mg", [
    ["Diazepam", "diazepam", "recipe says midazolam"],
    ["KETAMINE", "ketamine"],
    ["Diazepam infusion", "diazepam"],
    ["Contains diazepam", "diazepam"],
    ["title: Diazepam (not midazolam) 50 mg in sodium chloride 0.9 % 100 mL", "diazepam"],
  ]);
  areSilent("midazolam-50mg", [
    "Midazolam infusion",
    "Do not confuse with diazepam",
    "Not ketamine",
    "Do not mix with ketamine",
    "Compatible: ketamine",
    "Allergy to propofol",
    "Run with propofol",
    "title: Midazolam (not diazepam) 50 mg in sodium chloride 0.9 % 100 mL",
    "title: Midazolam, not diazepam, 50 mg in sodium chloride 0.9 % 100 mL",
  ]);
});

describe("what it holds", () => {
  areTold("magnesium-4g", [
    ["16 g per bag", "16 g"],
    ["Holds 8 g", "8 g"],
    ["This bag holds 32 mmol of magnesium", "32 mmol of magnesium"],
  ]);
  areTold("magnesium-2g-batch", [["8 g per bag", "8 g"]]);
  areTold("phosphate-calcium", [["Phosphate 100 mmol", "100 mmol"]]);
  areSilent("magnesium-4g", ["4 g per bag", "Holds 4 g", "This bag holds 16.2 mmol of magnesium"]);
  areSilent("magnesium-2g-batch", ["2 g per bag", "Four bags of 2 g"]);
  // Sodium glycerophosphate brings two of sodium, which the monograph does not say.
  areSilent("phosphate-calcium", ["Phosphate 10 mmol", "Sodium 20 mmol"]);
});
