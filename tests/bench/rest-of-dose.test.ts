/** What is left of a dose once a part of it was drawn, by hand: 2 g of 50 mg/mL are 40 mL, of which one syringe takes 25 mL. */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { movingWork } from "../../language/working/moving.ts";
import { movedBy, type Parts, run } from "../worked/recipe.ts";

const parts: Parts = {
  stock: "container  vial\n  strength  50 mg/mL\n  fill  1 L\n  capacity  2 L",
  more: "stock twin-vial {\n  drug  remedy\n  container  vial\n  strength  50 mg/mL\n  fill  1 L\n  capacity  2 L\n}",
  materials: "twin  twin-vial",
  order: "dose  2 g per flask",
  steps: "draw 25 mL from source into syringe\n    draw rest of dose from source into spare",
};
const moved = (more: Partial<Parts>, step: number) => movedBy(run({ ...parts, ...more }), step).value.toText();

describe("rest of dose", () => {
  it("is the dose less what was drawn of it", () => {
    expect(moved({}, 2)).toBe("15");
    const three =
      "draw 25 mL from source into syringe\n    draw 500 mg from source into spare\n    draw rest of dose from source into syringe on top";
    expect(moved({ steps: three }, 3)).toBe("5");
  });

  it("follows the patient", () => {
    const order = "weight  70 kg\n    dose  50 mg/kg per flask\n    round  dose to nearest 100 mg";
    // 3.5 g are 70 mL.
    expect(moved({ order }, 2)).toBe("45");
  });

  it("counts what came from the same containers only", () => {
    expect(moved({ steps: "draw 25 mL from twin into syringe\n    draw rest of dose from source into spare" }, 2)).toBe(
      "40",
    );
  });

  it("shows how it comes about", () => {
    const result = run(parts);
    const lines = movingWork(result, result.steps[1]!).map(({ text }) => text);
    expect(lines[0]).toBe("dose 2 g − 1.25 g drawn before = 0.75 g");
    expect(lines.at(-1)).toMatch(/= 15 mL$/);
  });

  it("is not known where nothing is left", () => {
    const steps = "draw 40 mL from source into syringe\n    draw rest of dose from source into spare";
    expect(() => run({ ...parts, steps })).toThrow(/Not known: .*figure-not-known/);
    expect(happened(run(parts), "figure-not-known")).toEqual([]);
  });
});
