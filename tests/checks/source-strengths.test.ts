/**
 * What a preparation is said to be made from, by the strength of it: a glucose of 12.5 % from 50 % is not the one from 20 %, and an ampoule of
 * another strength is the commonest slip of all (common practice). Strengths are those of the sample products.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

const inSaline = "in sodium chloride 0.9 % 100 mL";

describe("another strength than the products'", () => {
  areTold("magnesium-4g", [
    [`title: Magnesium sulfate 4 g from 20 % ampoules ${inSaline}`, "from 20 %", "recipe says 50 %"],
    [`title: Magnesium sulfate 4 g from 200 mg/mL ampoules ${inSaline}`, "from 200 mg/mL", "recipe says 500 mg/mL"],
    [`title: Magnesium sulfate 4 g (from 10 % solution) ${inSaline}`, "from 10 %"],
    ["Prepared from magnesium sulfate 20 %", "from 20 %"],
    ["Made from 100 mg/mL ampoules", "from 100 mg/mL"],
  ]);
  areTold("noradrenaline-8mg-syringe", [
    ["title: Noradrenaline 8 mg from 2 mg/mL ampoules in glucose 5 %, syringe of 50 mL", "from 2 mg/mL"],
    ["Prepared from 2 x 4 mL of 2 mg/mL", "4 mL of 2 mg/mL"],
  ]);
  areTold("digoxin-40mcg", [["title: Digoxin 40 mcg from 100 mcg/mL", "from 100 mcg/mL"]]);
  areTold("insulin-100-units", [
    [`title: Soluble insulin 100 units from 500 units/mL ${inSaline}`, "from 500 units/mL", "recipe says 100 units/mL"],
  ]);
  areTold("lipid-10g-syringe", [["title: Lipid emulsion 10 g from 10 % emulsion", "from 10 %"]]);
});

describe("the products' own", () => {
  areSilent("magnesium-4g", [
    `title: Magnesium sulfate 4 g from 50 % ampoules ${inSaline}`,
    `title: Magnesium sulfate 4 g from 500 mg/mL ampoules ${inSaline}`,
    `title: Magnesium sulfate 4 g from ampoules of 5 g in 10 mL, ${inSaline}`,
    "Prepared from magnesium sulfate 50 %",
    "Made from 500 mg/mL ampoules",
    "Made from sodium chloride 0.9 % and magnesium sulfate 50 %",
  ]);
  areSilent("noradrenaline-8mg-syringe", [
    "title: Noradrenaline 8 mg from 1 mg/mL ampoules in glucose 5 %, syringe of 50 mL",
    "title: Noradrenaline 8 mg from 2 mg/mL tartrate ampoules in glucose 5 %, syringe of 50 mL",
    "title: Noradrenaline 8 mg (2 ampoules of 4 mg/4 mL) in glucose 5 %, syringe of 50 mL",
    "Prepared from 2 x 4 mL of 1 mg/mL",
    "Differs from the 10 mg/mL syringe",
    "Changed from 80 mcg/mL",
    "Titrate from 2 mcg/min",
    "Protect from light",
  ]);
  areSilent("digoxin-40mcg", [
    "title: Digoxin 40 mcg from 250 mcg/mL via a 50 mcg/mL dilution",
    "title: Digoxin 40 mcg from a 50 mcg/mL dilution",
  ]);
});

describe("glucose mixed of two strengths", () => {
  const told = (title: string) =>
    findingsOf(
      example(
        ['"Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"', `"${title}"`],
        ['  formula        "MgSO4.7H2O"\n  ion            magnesium charge 2\n', ""],
        ["  strength   500 mg/mL", "  strength   20 % w/v"],
        ['"sodium chloride 0.9 % w/v"', '"glucose 5 % w/v"'],
        ["magnesium sulfate heptahydrate", "glucose"],
      )
        .replaceAll("magnesium-sulfate", "glucose")
        .replaceAll("sodium-chloride-0.9", "glucose-5"),
    )
      .filter(({ name }) => name === "title-contradicts-order")
      .map(({ message }) => message);
  it("is told by both", () => {
    expect(told("Glucose 4 g from 50 % and 5 %")).toEqual([
      "The title says from 50 %; the recipe says 20 % and 5 %. Correct whichever is wrong.",
    ]);
    expect(told("Glucose 4 g from glucose 20 % and glucose 10 %")).toEqual([
      "The title says from 10 %; the recipe says 20 % and 5 %. Correct whichever is wrong.",
    ]);
    expect(told("Glucose 4 g from 20 % and 5 %")).toEqual([]);
    expect(told("Glucose 4 g from glucose 20 % and glucose 5 %")).toEqual([]);
  });
});
