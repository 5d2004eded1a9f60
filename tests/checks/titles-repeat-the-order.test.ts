/**
 * A title or label that repeats a figure of the order, a little off: a mistyped figure is no rounding. What rounds to what is written:
 * common practice.
 */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const title = (text: string, ...more: [string, string][]) =>
  findingsOf(example(['"Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"', `"${text}"`], ...more)).map(
    ({ message }) => message,
  );

test.each([
  ["Magnesium sulfate 4.1 g in sodium chloride 0.9 % 100 mL", "The title says 4.1 g; the order says 4 g."],
  ["Magnesium sulfate 3.9 g in 100 mL", "The title says 3.9 g; the order says 4 g."],
  // How long it may be kept is no time of giving.
  ["Magnesium sulfate 4 g in 100 mL over 24 h", "The title says 24 h; the order says 4 h."],
  ["Magnesium sulfate 4,100 mg in 100 mL", "The title says 4,100 mg; the order says 4 g."],
  ["Magnesium sulfate 4 g in sodium chloride 1.9 %, made up to 108 mL", "The title says sodium chloride 1.9 %;"],
  [
    "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL, drawn through a 2 micrometre filter",
    "The title says 2 micrometre; the list of materials says a filter of 5 micrometre.",
  ],
])("%s", (text, said) => {
  expect(title(text)).toEqual([expect.stringContaining(said)]);
});

test.each([
  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL",
  "Magnesium sulfate 4,000 mg in sodium chloride 0.9 % 100 mL",
  // 16.23 mmol: what is turned into another unit rests on a molar mass.
  "Magnesium sulfate 4 g (16 mmol) in sodium chloride 0.9 % 100 mL",
  "Magnesium sulfate 4 g in sodium chloride 0.9 %, made up to 108 mL",
  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL, drawn through a 5 micrometre filter",
])("nothing of: %s", (text) => {
  expect(title(text)).toEqual([]);
});

test("an order of 1.96 g may be called 2 g, as it rounds", () => {
  const changes: [string, string][] = [
    ["    dose            4 g per bag", "    dose            1.96 g per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 1.96 g from mag into syringe  = 3.92 mL"],
    ["magnesium-4g {", "magnesium-bag {"],
  ];
  const said = title("Magnesium sulfate 2 g in sodium chloride 0.9 % 100 mL", ...changes);
  expect(said.filter((each) => each.includes("title"))).toEqual([]);
  const off = title("Magnesium sulfate 2.1 g in sodium chloride 0.9 % 100 mL", ...changes);
  expect(off).toContainEqual(expect.stringContaining("The title says 2.1 g"));
});

test("a line of the label likewise", () => {
  const label = (line: string) =>
    findingsOf(
      example(
        ["    inject syringe into bag\n", "    inject syringe into bag\n"],
        ["  preparation bag {", `  label-text {\n    line  "${line}"\n  }\n\n  preparation bag {`],
      ),
    ).map(({ message }) => message);
  expect(label("Contains magnesium sulfate 4.1 g.")).toContainEqual(expect.stringContaining("4.1 g"));
  expect(label("Contains magnesium sulfate 4 g.")).toEqual([]);
});

test("an order in mmol, of which the ion counts the same", () => {
  const changes: [string, string][] = [
    ["    dose            4 g per bag", "    dose            16 mmol per bag"],
    ["magnesium-4g {", "magnesium-bag {"],
  ];
  const said = (text: string) => title(text, ...changes).filter((each) => each.startsWith("The title"));
  expect(said("Magnesium sulfate 16 mmol in sodium chloride 0.9 % 100 mL")).toEqual([]);
  expect(said("Magnesium sulfate 16.5 mmol in sodium chloride 0.9 % 100 mL")).toEqual([
    expect.stringContaining("The title says 16.5 mmol; the order says 16 mmol."),
  ]);
});
