/**
 * What a title or a label says for each kg, each m2 or a day, in whatever words and units: magnesium sulfate 4 g in 100 mL (108 mL with the
 * drug, 37.04 mg/mL) for 80 kg, once ordered as 50 mg/kg and once as 4 g. By hand: 10 mL/h are 4.63 mg/kg/h, so that the number of mL/h times
 * 0.463 is that of mg/kg/h. Practice of how printed lines are worded: from memory.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const titled = "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL";
const dose = "    dose            4 g per bag\n";
const weight = "    weight          80 kg\n";
const orders = {
  "50 mg/kg": `    dose            50 mg/kg per bag\n${weight}`,
  "4 g": dose + weight,
  "4 g for anybody": dose,
  "4 g for a child": `${dose}    population      child\n`,
  "50 mg/kg in a day": `    dose            50 mg/kg per 24 h\n${weight}`,
};

function told(line: string, order: keyof typeof orders, where: "label" | "title" = "label"): string[] {
  const label = where === "label" ? line : "For one patient.";
  return findingsOf(
    example(
      [dose, orders[order]],
      ["  preparation bag {", `  label-text {\n    line  "${label}"\n  }\n\n  preparation bag {`],
      [titled, where === "title" ? `${titled}, ${line}` : titled],
    ),
  )
    .filter(({ name }) => name === "title-contradicts-order" || name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^.*? says (.*)\. Correct whichever is wrong\.$/, "$1"));
}

const right = [
  "50 mg/kg",
  "50 mg per kg",
  "50 mg per kilogram",
  "50 mg kg-1",
  "0.05 g/kg",
  "50,000 micrograms per kilogram",
  "50 mg/kg/dose",
  "50 mg/kg per dose",
  "50 mg per kilogram daily",
  "100 mg/kg/day",
  "8 g per day",
  "12.5 mg/kg/h",
];
const wrong = [
  "5 mg/kg",
  "50 mcg/kg",
  "50 micrograms per kilogram",
  "0.5 mg per kilogram",
  "500 mg/kg/dose",
  "50 mmol/kg",
  "50 units/kg",
  "500 mg/kg/day",
  "5 mg per kilogram per day",
  "40 g per day",
  "400 mg daily",
  "12.5 mcg/kg/min",
  "13.5 mL/kg",
];

describe.each(["50 mg/kg", "4 g"] as const)("an order of %s for 80 kg", (order) => {
  it.each(right)("is what %s says", (line) => {
    expect(told(`Magnesium sulfate ${line}`, order)).toEqual([]);
    expect(told(line, order, "title")).toEqual([]);
  });

  it.each(wrong)("is not what %s says", (line) => {
    expect(told(`Magnesium sulfate ${line}`, order)).toEqual([expect.stringContaining(line)]);
    expect(told(line, order, "title")).toEqual([expect.stringContaining(line)]);
  });
});

describe("what is ordered", () => {
  it("is said for the patient where the order counts nothing by the patient", () => {
    expect(told("Magnesium sulfate 5 mg/kg", "4 g")).toEqual(["5 mg/kg; the order says 4 g for 80 kg"]);
    expect(told("5 mg/kg", "4 g", "title")).toEqual(["5 mg/kg; the order comes to 4 g for 80 kg"]);
  });

  it("is said as the order counts it where the text counts by body surface", () => {
    expect(told("Magnesium sulfate 50 mg/m2", "50 mg/kg")).toEqual(["50 mg/m2; the order says 50 mg/kg"]);
    // Infants in oncology: the dose for 1 m2 ÷ 30 for each kg.
    expect(told("Magnesium sulfate 1,500 mg/m2", "50 mg/kg")).toEqual([]);
  });

  it("is said for a container where the text counts a day", () => {
    expect(told("Magnesium sulfate 400 mg daily", "4 g")).toEqual([
      "400 mg daily; the order says 4 g per bag for 80 kg",
    ]);
  });

  it("is for a day where the text says for a dose", () => {
    expect(told("Magnesium sulfate 50 mg/kg per dose", "50 mg/kg in a day")).toEqual([
      "50 mg/kg per dose; the order says 50 mg/kg per 24 h",
    ]);
  });
});

describe("a patient of no stated weight", () => {
  it("is nobody where nobody is that heavy", () => {
    expect(told("Magnesium sulfate 5 mg/kg", "4 g for anybody")).toEqual([
      "5 mg/kg; the order says 4 g, which would be a patient of 800 kg",
    ]);
    expect(told("Magnesium sulfate 20 mg/kg", "4 g for a child")).toEqual([
      "20 mg/kg; the order says 4 g for a child, which would be a patient of 200 kg",
    ]);
  });

  it("may be anybody else", () => {
    expect(told("Magnesium sulfate 50 mg/kg", "4 g for anybody")).toEqual([]);
  });

  it("is the one that the text names", () => {
    expect(told("Magnesium sulfate 50 mg/kg x 80 kg", "4 g for anybody")).toEqual([]);
    expect(told("Magnesium sulfate 50 mg/kg × 60 kg", "4 g for anybody")).toEqual([
      "50 mg/kg; the order says 4 g for 60 kg",
    ]);
  });
});

describe("units that a text calls the same", () => {
  it.each([
    "mL/h × 0.463 = mg/kg/h",
    "mL/h = mg/kg/h × 2.16",
    "mg/kg/h = mL/h ÷ 2.16",
    "10 mL/h corresponds to 4.63 mg/kg/h",
    "10 mL/h: 4.63 mg/kg/h",
  ])("%s is what the bag gives", (line) => {
    expect(told(line, "4 g")).toEqual([]);
  });

  it.each([
    ["mL/h = mg/kg/h", "1 mL/h for 1 mg/kg/h; the recipe says 1 mL/h for 0.463 mg/kg/h"],
    ["Rate in mL/h = dose in mg/kg/h", "1 mL/h for 1 mg/kg/h; the recipe says 1 mL/h for 0.463 mg/kg/h"],
    ["mL/h × 4.63 = mg/kg/h", "1 mL/h for 4.63 mg/kg/h; the recipe says 1 mL/h for 0.463 mg/kg/h"],
    ["10 mL/h corresponds to 46.3 mg/kg/h", "10 mL/h for 46.3 mg/kg/h; the recipe says 10 mL/h for 4.63 mg/kg/h"],
    ["10 mL/h: 46.3 mg/kg/h", "10 mL/h for 46.3 mg/kg/h; the recipe says 10 mL/h for 4.63 mg/kg/h"],
  ])("%s is not", (line, expected) => {
    expect(told(line, "4 g")).toEqual([expected]);
  });
});

it("when the next is given is no time of giving", () => {
  expect(told("every 36 hours", "4 g", "title")).toEqual([]);
});

it.each([
  ["Weight (kg) × 50 = mg in 100 mL", []],
  ["50 mg × weight (kg)", []],
  ["50 mg/kg made up to 108 mL", []],
  ["5 mg/kg made up to 108 mL", ["5 mg/kg; the order says 50 mg/kg"]],
  ["Weight in kg x 5 = mg in 100 mL", ["5 mg/kg; the order says 50 mg/kg"]],
  ["500 mg × weight (kg)", ["500 mg/kg; the order says 50 mg/kg"]],
])("%s is the dose for each kg", (line, expected) => {
  expect(told(line, "50 mg/kg")).toEqual(expected);
});

it("a dilution that a text names is one that the recipe declares", () => {
  const declared = (title: string) =>
    findingsOf(
      example(
        [titled, title],
        [
          "  preparation bag {",
          "  intermediate weak {\n    in   syringe\n    at   50 mg/mL\n    use  at-once\n  }\n\n  preparation bag {",
        ],
      ),
    ).filter(({ name }) => name === "title-contradicts-order");
  expect(declared(`${titled}, from a 50 mg/mL dilution`)).toEqual([]);
  expect(declared(`${titled}, from a 5 mg/mL dilution`)[0]?.message).toContain(
    "says 5 mg/mL dilution; the order comes to 50 mg/mL",
  );
});
