/**
 * Rates and boluses on a line of the label, in mL and in drug. Magnesium sulfate 4 g in 108 mL over 4 h: 1 g/h at 27 mL/h, 37.04 mg/mL, 4.06
 * mmol/h (246.47 g/mol), by hand. For 20 kg, 50 mg/kg/h is 1 g/h too. Common practice: the label is what the pump is set by.
 */
import { expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const labelled = (line: string, ...changes: [string, string][]) =>
  findingsOf(
    example(["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`], ...changes),
  )
    .filter(({ name }) => name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^This line of the label says (.*)\. Correct whichever is wrong\.$/, "$1"));

const byWeight: [string, string] = [
  "    infuse-over     4 h\n",
  "    infuse-at       50 mg/kg/h\n    weight          20 kg\n",
];
const withoutWeight: [string, string] = ["    infuse-over     4 h\n", "    infuse-at       50 mg/kg/h\n"];

it.each([
  "Magnesium sulfate 1 g/h",
  "Magnesium sulfate 1 g per hour",
  "Rate 17 mg/min",
  "1 g/h at 27 mL/h",
  "Run at 27 mL/h (1 g/h)",
  "Magnesium 4.06 mmol/h",
  "Magnesium 8.12 mEq/h",
  // 24.305 of 246.47 is magnesium.
  "Magnesium 98.6 mg/h",
  "Run at 27 mL per hour",
  "Start at 2 g/h (54 mL/h)",
  "Do not exceed 9 g/h",
  "1 g/h to 2 g/h",
  "Bolus 2 mL (74 mg)",
  "Bolus of 740 mg in 20 mL",
])("%s is in order", (line) => {
  expect(labelled(line)).toEqual([]);
});

it.each([
  ["Magnesium sulfate 10 g/h", "10 g/h; the order says 1 g/h"],
  ["Magnesium sulfate 10 g per hour", "10 g per hour; the order says 1 g/h"],
  ["Give 167 mg/min", "167 mg/min; the order says 16.67 mg/min"],
  ["Run at 270 mL per hour", "270 mL per hour; the order says 27 mL/h and 25 mL/h"],
  ["10 g/h at 27 mL/h", "10 g/h at 27 mL/h; the recipe says 1 g/h at 27 mL/h"],
  ["1 g/h at 2.7 mL/h", "1 g/h at 2.7 mL/h; the recipe says 1 g/h at 27 mL/h"],
  ["27 mL/h (10 g/h)", "27 mL/h for 10 g/h; the recipe says 27 mL/h for 1 g/h"],
  // They agree with each other, and not with the order.
  ["10 g/h at 270 mL/h", "10 g/h; the order says 1 g/h"],
  // Where it starts is not ordered, but the two must be one rate.
  ["Start at 2 g/h (5.4 mL/h)", "2 g/h at 5.4 mL/h; the recipe says 0.2 g/h at 5.4 mL/h"],
  ["Bolus 2 mL (2 mg)", "2 mL (2 mg); the recipe for magnesium-sulfate says 37.04 mg/mL"],
  ["Bolus of 74 mg in 20 mL", "74 mg in 20 mL; the recipe for magnesium-sulfate says 37.04 mg/mL"],
])("%s is told once", (line, told) => {
  expect(labelled(line)).toEqual([told]);
});

it.each(["50 mg/kg/h", "0.83 mg/kg/min", "1 g/h", "27 mL/h (50 mg/kg/h)", "Run at 27 mL/h"])(
  "%s is in order for 20 kg",
  (line) => {
    expect(labelled(`Magnesium sulfate ${line}`, byWeight)).toEqual([]);
  },
);

it.each([
  ["500 mg/kg/h", "500 mg/kg/h; the order says 50 mg/kg/h"],
  ["8.3 mg/kg/min", "8.3 mg/kg/min; the order says 0.8333 mg/kg/min"],
  ["10 g/h", "10 g/h; the order says 1 g/h"],
  ["27 mL/h (5 mg/kg/h)", "27 mL/h for 5 mg/kg/h; the recipe says 27 mL/h for 50 mg/kg/h"],
])("%s is told for 20 kg", (line, told) => {
  expect(labelled(`Magnesium sulfate ${line}`, byWeight)).toEqual([told]);
});

it("a rate per kg is laid against the order's own without a weight, and nothing else is", () => {
  expect(labelled("Magnesium sulfate 500 mg/kg/h", withoutWeight)).toEqual(["500 mg/kg/h; the order says 50 mg/kg/h"]);
  expect(labelled("Magnesium sulfate 50 mg/kg/h", withoutWeight)).toEqual([]);
  expect(labelled("Magnesium sulfate 10 g/h", withoutWeight)).toEqual([]);
});

it("a rate is that at which the pump is set", () => {
  // 108 mL over 200 h are 0.54 mL/h; a pump that goes in steps of 0.1 mL/h is set to 0.5 mL/h.
  const slow: [string, string] = ["infuse-over     4 h", "infuse-over     200 h"];
  expect(labelled("Run at 0.5 mL/h", slow)).toEqual([]);
  expect(labelled("Run at 0.7 mL/h", slow)).toHaveLength(1);
});
