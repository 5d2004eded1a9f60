/**
 * For whom a title or label says that it is made, and what a rate gives to a patient of the ordered weight: magnesium sulfate 4 g (8 mL of
 * 500 mg/mL) in 100 mL, 37.04 mg/mL, ordered as 50 mg/kg for 80 kg. By hand: 10 mL/h are 370.4 mg/h, 4.63 mg/kg/h or 77.2 mcg/kg/min.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const titled = "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL";
const told = (line: string, title = titled, use = "infusion") =>
  findingsOf(
    example(
      ["    dose            4 g per bag\n", `    dose            50 mg/kg per bag\n    weight          80 kg\n`],
      ["    infuse-over     4 h\n", `    infuse-over     4 h\n    use             ${use}\n`],
      ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
      [titled, title],
    ),
  )
    .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

describe("a rate for each kg", () => {
  it.each([
    ["10 mL/h = 46.3 mg/kg/h", ["10 mL/h for 46.3 mg/kg/h; the recipe says 10 mL/h for 4.63 mg/kg/h"]],
    ["10 mL/h = 77.2 mcg/kg/h", ["10 mL/h for 77.2 mcg/kg/h; the recipe says 10 mL/h for 4,630 mcg/kg/h"]],
    ["77.2 mcg/kg/min is 1 mL/h", ["77.2 mcg/kg/min at 1 mL/h; the recipe says 7.716 mcg/kg/min at 1 mL/h"]],
    ["10 mL/h = 4.63 mg/kg/h for 8 kg", ["8 kg; the order says 80 kg"]],
  ])("%s is another", (line, expected) => {
    expect(told(line)).toEqual(expected);
  });

  it.each(["10 mL/h = 4.63 mg/kg/h", "77.2 mcg/kg/min is 10 mL/h", "10 mL/h = 4.63 mg/kg/h for 80 kg"])(
    "%s is what the bag gives",
    (line) => {
      expect(told(line)).toEqual([]);
    },
  );

  it("is told in the title, and none of its figures alone", () => {
    expect(told("Magnesium", `${titled}: 10 mL/h = 4.63 mg/kg/h`)).toEqual([]);
    expect(told("Magnesium", `${titled}: 1 mL/h = 4.63 mg/kg/h`)).toEqual([
      "1 mL/h for 4.63 mg/kg/h; the order comes to 1 mL/h for 0.463 mg/kg/h",
    ]);
  });
});

describe("the patient on the label", () => {
  it.each([
    ["For 70 kg", ["70 kg; the order says 80 kg"]],
    ["Magnesium sulfate 4 g (5 mg/kg)", ["5 mg/kg; the order says 50 mg/kg"]],
    ["70 kg patient", ["70 kg; the order says 80 kg"]],
  ])("%s is another", (line, expected) => {
    expect(told(line)).toEqual(expected);
  });

  it.each([
    "For 80 kg",
    "50 mg/kg",
    "Up to 60 mg/kg",
    "For 40 kg to 90 kg",
    "Loading dose 30 mg/kg",
    "Not for patients below 40 kg",
    "Magnesium sulfate 4 g for 80 kg (50 mg/kg)",
  ])("%s is in order", (line) => {
    expect(told(line)).toEqual([]);
  });
});

describe("a rate that stands alone", () => {
  // 108 mL over 4 h are 27 mL/h.
  it("is the rate of the order, and of no part of it", () => {
    expect(told("27 mL/h")).toEqual([]);
    expect(told("Magnesium sulfate 4 g, 270 mL/h")).toEqual(["270 mL/h; the order says 27 mL/h and 25 mL/h"]);
    expect(told("Bolus 270 mL/h")).toEqual([]);
    expect(told("Flush 270 mL/h")).toEqual([]);
    expect(told("Bolus 37 mg to 74 mg (1 mL to 2 mL)")).toEqual([]);
  });
});

describe("the figure of the order in another unit", () => {
  const insulin = (title: string, line: string) =>
    findingsOf(
      example(
        ['  formula        "MgSO4.7H2O"\n', ""],
        ["  ion            magnesium charge 2\n", ""],
        ["from 500 mg up to 10 g for any route", "any for any route"],
        ["up to 200 mg/mL for route intravenous", "any for any route"],
        ["up to 9 g/h for route intravenous", "any for any route"],
        ["  strength   500 mg/mL", "  strength   500 units/mL"],
        ["    dose            4 g per bag", "    dose            4,000 units per bag"],
        ["    draw 4 g from", "    draw 4,000 units from"],
        ["    concentration  37.04 mg/mL", "    concentration  37.04 units/mL"],
        ["magnesium-4g {", "magnesium-bag {"],
        [titled, title],
        ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
      ),
    )
      .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
      .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

  it("is a slip where nothing turns one into the other", () => {
    expect(insulin("Magnesium 4,000 units in 100 mL", "Magnesium 4,000 units")).toEqual([]);
    expect(insulin("Magnesium 4,000 mg in 100 mL", "Magnesium 4,000 mmol")).toEqual([
      "4,000 mg; the order comes to 4,000 units",
      "4,000 mmol; the order says 4,000 units",
    ]);
  });

  it("is left alone where it is another figure, which nobody can compare", () => {
    expect(insulin("Magnesium 4,000 units (32 mg) in 100 mL", "Magnesium 32 mg")).toEqual([]);
  });
});

describe("an exposure", () => {
  // Calvert: 5 AUC at a clearance of 55 mL/min are 5 × (55 + 25) = 400 mg.
  const carboplatin = (title: string, line: string) =>
    findingsOf(
      example(
        [
          "  dose           from 500 mg",
          '  dose-by-auc    calvert  source guide "magnesium"\n  dose           from 400 mg',
        ],
        ["    dose            4 g per bag", "    dose            5 AUC per bag\n    clearance       55 mL/min"],
        ["    draw 4 g from mag into syringe  = 8 mL", "    draw 400 mg from mag into syringe  = 0.8 mL"],
        ["magnesium-4g {", "magnesium-bag {"],
        [titled, title],
        ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
      ),
    )
      .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
      .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));

  it("is read with its figure behind it, as protocols write it", () => {
    expect(carboplatin("Magnesium AUC 5 in 100 mL", "Magnesium (5 AUC)")).toEqual([]);
    expect(carboplatin("Magnesium AUC 6 in 100 mL", "Magnesium AUC 7, AUC of 5 mg/mL.min")).toEqual([
      "AUC 6; the order says 5 AUC",
      "AUC 7; the order says 5 AUC",
    ]);
  });
});
