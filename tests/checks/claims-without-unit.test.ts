/** Figures beside a step that say no unit are told; before, a strength without one was no claim at all. Common practice. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const inject = "    inject syringe into bag\n";

test.each([
  ["giving 37.04", "37.04 in `giving` has no unit."],
  ["leaving 108", "108 in `leaving` has no unit."],
  ["giving magnesium-sulfate 4", "4 in `giving` has no unit."],
])("%s", (claim, said) => {
  const found = findingsOf(example([inject, `    inject syringe into bag  ${claim}\n`]));
  expect(found.map(({ name, message }) => `${name}: ${message}`)).toEqual([
    expect.stringContaining(`unit-missing: ${said}`),
  ]);
});

test("an end of a range may not borrow the unit of the other", () => {
  const found = findingsOf(example(["syringe  = 8 mL", "syringe  = 8 mL to 9"]));
  expect(found.map(({ message }) => message)).toContain("9 in `=` has no unit. Write 9 mL if that is meant.");
});
