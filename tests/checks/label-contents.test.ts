/**
 * Strengths told by two figures, fluids told by their percentage, ions and osmolarity on a line of the label, laid against what the
 * recipe makes: magnesium sulfate 4 g (8 mL of 500 mg/mL) in 100 mL of sodium chloride 0.9 %.
 *
 * Figures: sodium chloride 0.9 % holds 154 mmol/L of each ion and 308 mOsm/L (its usual label); magnesium sulfate heptahydrate
 * 246.47 g/mol (IUPAC standard atomic weights), so that 4 g bring 16.23 mmol of each ion, 32.46 mOsm with the 30.8 of the fluid in 108 mL:
 * 586 mOsm/L. 4 g in 108 mL is 37.04 mg/mL.
 */
import { expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const glucose = `fluid glucose-5 {\n  source      guide "fluids"\n  name        "glucose 5 % w/v"\n  contains    glucose 50 g/L\n  osmolarity  278 mOsm/L\n}\n\nrecipe `;

const labelled = (line: string) =>
  findingsOf(
    example(
      ["recipe ", glucose],
      ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
    ),
  )
    .filter(({ name }) => name === "label-text-contradicts-order")
    .map(({ message }) => message.replace(/^This line of the label says (.*)\. Correct whichever is wrong\.$/, "$1"));

it.each([
  ["1 mL = 370 mg", "1 mL = 370 mg; the recipe for magnesium-sulfate says 37.04 mg/mL"],
  ["1 mL contains 3.7 mg", "1 mL = 3.7 mg; the recipe for magnesium-sulfate says 37.04 mg/mL"],
  [
    "10 mL of solution contain magnesium sulfate 3.7 g",
    "10 mL = 3.7 g; the recipe for magnesium-sulfate says 0.03704 g/mL",
  ],
  ["1 g = 2.7 mL", "1 g = 2.7 mL; the recipe for magnesium-sulfate says 0.03704 g/mL"],
  ["27 mL/h = 10 g/h", "27 mL/h = 10 g/h; the recipe for magnesium-sulfate says 0.03704 g/mL"],
])("%s is another strength", (line, told) => {
  expect(labelled(line)).toEqual([told]);
});

it.each(["1 mL = 37 mg", "1 g = 27 mL", "27 mL/h = 1 g/h", "1 mL of solution contains magnesium sulfate 37 mg"])(
  "%s is the strength, and no dose, volume or rate",
  (line) => {
    expect(labelled(line)).toEqual([]);
  },
);

it.each([
  [
    "Magnesium sulfate 4 g in 0.45 % sodium chloride",
    "0.45 % sodium chloride; the recipe says sodium chloride 0.9 % w/v",
  ],
  ["Magnesium sulfate 4 g in sodium chloride 9 %", "sodium chloride 9 %; the recipe says sodium chloride 0.9 % w/v"],
  ["In 10 % glucose", "10 % glucose; the recipe says sodium chloride 0.9 % w/v"],
  ["In 5 % glucose", "glucose-5; the recipe says sodium-chloride-0.9"],
  ["37 % magnesium sulfate", "37 %; the recipe says 3.704 % w/v"],
])("%s is another fluid or percentage", (line, told) => {
  expect(labelled(line)).toEqual([told]);
});

it.each([
  "In 0.9 % sodium chloride",
  "3.7 % magnesium sulfate",
  "Flush with 5 % glucose",
  "Compatible with glucose 10 %",
])("%s is in order", (line) => {
  expect(labelled(line)).toEqual([]);
});

it.each([
  ["Contains sodium 154 mmol", "sodium 154 mmol; the recipe says 15.4 mmol"],
  ["Chloride 154 mEq", "chloride 154 mEq; the recipe says 15.4 mEq"],
  ["Sodium 77 mmol/L", "sodium 77 mmol/L; the recipe says 142.6 mmol/L"],
  // 154 mmol in 108 mL are 142.6 mmol in a litre, on labels 154 mmol of the fluid alone.
  ["Contains sodium 1,540 mmol in 1 L", "sodium 1,540 mmol in 1 L; the recipe says 142.6 mmol in 1 L"],
  ["Sodium 15.4 mmol in 1 L", "sodium 15.4 mmol in 1 L; the recipe says 142.6 mmol in 1 L"],
  ["Sodium 154 mmol in 100 mL", "sodium 154 mmol; the recipe says 15.4 mmol"],
  ["Osmolarity 308 mOsm/L", "308 mOsm/L; the recipe says 586 mOsm/L"],
  ["Osmolarity 5,860 mOsm/L", "5,860 mOsm/L; the recipe says 586 mOsm/L"],
])("%s is not what the container holds", (line, told) => {
  expect(labelled(line)).toEqual([told]);
});

it.each([
  "Contains sodium 15.4 mmol and chloride 15.4 mmol",
  "Sodium 142.6 mmol/L",
  "Sodium 15.4 mmol in 100 mL",
  "Contains sodium 143 mmol in 1 L",
  "In sodium chloride 0.9 % (sodium 154 mmol in 1 L)",
  "In sodium chloride (sodium 154 mmol/L)",
  "Osmolarity 550 mOsm/L",
  "Osmolarity not above 900 mOsm/L",
  // What is measured in the patient is no strength of the bag.
  "Target magnesium 1 mmol/L",
  "Serum sodium 140 mmol/L",
  "Magnesium level 1 mmol/L",
])("%s is what the container holds, or what its fluid is labelled with", (line) => {
  expect(labelled(line)).toEqual([]);
});

it.each([
  [
    "Magnesium sulfate 4 g in 0.45 % sodium chloride",
    "The title says 0.45 % sodium chloride; the recipe says sodium chloride 0.9 % w/v. Correct whichever is wrong.",
  ],
  ["Magnesium sulfate 4 g in 0.9 % sodium chloride", undefined],
])("the title %s", (title, told) => {
  const found = findingsOf(example([/title {2}".*"/.exec(example())![0], `title  "${title}"`])).map((f) => f.message);
  expect(found).toEqual(told === undefined ? [] : [told]);
});
