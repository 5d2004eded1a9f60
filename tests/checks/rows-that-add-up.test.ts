/** Which rows of a monograph add up and which hold each on its own. Figures invented; each worked out in its comment. */
import { describe, expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const rate = "  rate           up to 9 g/h for route intravenous\n";
const strength = "  concentration  up to 200 mg/mL for route intravenous\n";
const names = (text: string) => findingsOf(text).map((f) => f.name);

describe("a limit per kg and one of the whole", () => {
  const weight: [string, string] = ["    infuse-over     4 h", "    infuse-over     4 h\n    weight          80 kg"];

  // 4 g over 4 h are 1 g/h; for 80 kg 12.5 mg/kg/h.
  test.each([
    ["10 mg/kg/h", ["rate-above-limit"]],
    ["12.5 mg/kg/h", []],
    ["10 mg/kg/h", ["rate-above-limit"], "before"],
  ])("%s beside 9 g/h", (most, expected, where = "behind") => {
    const row = `  rate           up to ${most} for route intravenous\n`;
    expect(names(example([rate, where === "before" ? row + rate : rate + row], weight))).toEqual(expected);
  });

  test("is said to be unchecked where the order names no weight", () => {
    const row = "  rate           up to 10 mg/kg/h for route intravenous\n";
    expect(names(example([rate, rate + row]))).toEqual(["limit-not-compared"]);
  });
});

describe("rows for the same circumstances", () => {
  // 4 g in 108 mL are 37.04 mg/mL.
  test.each([
    ["up to 60 mg/mL for route intravenous", ["limit-without-effect"]],
    ["up to 60 mg/mL for route intravenous when weight below 10 kg", ["limit-without-effect"]],
    ["up to 60 mg/mL for route intravenous access peripheral", []],
    ["up to 300 mg/mL for any route", []],
    ["up to 100 mg/mL for any route", ["limit-without-effect"]],
    ["from 250 mg/mL up to 300 mg/mL for route intravenous", []],
    ["from 150 mg/mL up to 300 mg/mL for route intravenous", []],
    ["up to 300 mg/mL for route intravenous access central", ["limit-without-effect"]],
    ["up to 300 mg/mL for route subcutaneous", []],
    // Of another measure: 10 mmol/mL are 2.46 g/mL.
    ["up to 10 mmol/mL for route intravenous", []],
  ])("%s beside up to 200 mg/mL", (row, expected) => {
    expect(names(example([strength, `${strength}  concentration  ${row}\n`]))).toEqual(expected);
  });
});

describe("rounding", () => {
  const ordered = (order: string, more: [string, string][] = []) =>
    findingsOf(
      example(
        ["    dose            4 g per bag\n", `${order}\n`],
        ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
        ["    concentration  37.04 mg/mL\n", ""],
        ["  dose           from 500 mg up to 10 g for any route\n", "  dose           up to 10 g for any route\n"],
        ...more,
      ),
    ).filter(({ name }) => name === "rounding-moves-dose");

  // 60 mg/kg at 1 kg are 60 mg; 50 mg are 16.7 % less.
  test("of a newborn's dose is told with its figures", () => {
    const [only, ...more] = ordered(
      "    weight          1 kg\n    dose            60 mg/kg per bag\n    round           dose to nearest 50 mg",
    );
    expect(more).toEqual([]);
    expect(only?.message).toContain("60 mg is rounded to 50 mg in steps of 50 mg, 16.7 % less");
    expect(only?.message).toContain("15 %");
  });

  test("of a dose for which the step is fine is not", () => {
    const order =
      "    weight          60 kg\n    dose            60 mg/kg per bag\n    round           dose to nearest 50 mg";
    expect(ordered(order)).toEqual([]);
  });

  test("goes by what the site allows", () => {
    const order =
      "    weight          1 kg\n    dose            60 mg/kg per bag\n    round           dose to nearest 50 mg";
    expect(
      ordered(order, [["  tolerance      dose 5 %", "  tolerance      dose 5 %\n  tolerance      rounding 20 %"]]),
    ).toEqual([]);
  });

  test("is not told of a dose that the cap sets", () => {
    const order =
      "    weight          1 kg\n    dose            80 mg/kg per bag\n    round           dose to nearest 50 mg\n    maximum         dose 50 mg";
    expect(ordered(order)).toEqual([]);
  });
});
