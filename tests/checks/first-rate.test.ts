/**
 * The rate that a titrated infusion is started at must be one that the pump can be set to. Worked by hand: 4 g in 108 mL are 37.04 mg/mL,
 * so that 20 mg/h are 0.54 mL/h, and a pump set in steps of 0.1 mL/h gives 0.5 mL/h, 7.4 % less.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";

const started = (giving: string, step = "0.1 mL/h") =>
  findingsOf(
    example(
      ["    infuse-over     4 h\n", `    use             titrated\n${giving}`],
      ["  role           pharmacist\n", `  role           pharmacist\n  pump-step      ${step}\n`],
    ),
  )
    .filter((f) => f.name === "rate-not-settable")
    .map((f) => f.message);

describe("the rate at which a titrated infusion is started", () => {
  it("is told where the pump cannot be set to it", () => {
    expect(started("    infuse-at       20 mg/h\n")).toEqual([
      "bag is to start at 0.54 mL/h; a pump set in steps of 0.1 mL/h gives 0.5 mL/h, 7.41 % off, and the site allows 5 %. Dilute it more, or give it with a finer pump.",
    ]);
    expect(started("    infuse-at       1 mg/h\n")[0]).toMatch(/gives 0 mL\/h, 100 % off/);
  });
  it("is not where it can, with a finer pump, or where none is stated", () => {
    expect(started("    infuse-at       20 mg/h\n", "0.01 mL/h")).toEqual([]);
    expect(started("    infuse-at       200 mg/h\n")).toEqual([]);
    expect(started("")).toEqual([]);
  });
});
