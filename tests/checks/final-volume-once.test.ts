/** A final volume that is wrong by the labels is told once, whatever the overfill of a product; one that the overfill alone moves is told with it. */
import { expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const filled = (overfill: string, volume: string) =>
  findingsOf(
    example(
      ["  fill       100 mL\n", `  fill       100 mL\n  overfill   ${overfill}  source guide "fluids"\n`],
      ["    diluent-volume  100 mL\n", `    diluent-volume  100 mL\n    final-volume    ${volume}\n`],
    ),
  ).filter(({ name }) => name === "final-volume-differs");

// 100 mL and 8 mL are 108 mL, with the overfill 110 mL to 113 mL.
test("80 mL are told once", () => {
  const [only, ...more] = filled("2 mL to 5 mL", "80 mL");
  expect(more).toEqual([]);
  expect(only?.message).not.toContain("overfill");
});

// With 15 mL to 20 mL more it is 123 mL to 128 mL, more than a tenth above.
test("what only the overfill moves is told with the overfill", () => {
  const told = filled("15 mL to 20 mL", "108 mL");
  expect(told.length).toBeGreaterThan(0);
  expect(told.every(({ message }) => message.includes("overfill"))).toBe(true);
});
