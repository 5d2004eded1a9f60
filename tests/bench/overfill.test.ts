/** Declared overfill counts in the strength of what is drawn from a mixture: worked by hand from 4 g in 100 mL, with 3 mL to 5 mL more. */
import { describe, expect, it } from "vitest";
import { movingWork } from "../../language/working/moving.ts";
import { movedBy, type Parts, run } from "../worked/recipe.ts";

const parts: Parts = {
  stock: "container  vial\n  strength  500 mg/mL\n  fill  8 mL",
  more: `stock bag-100 {
  fluid  vehicle
  container  bag
  fill  100 mL
  capacity  1 L
  overfill  3 mL to 5 mL  source guide "x"
}
reference guide {
  title "guide"
}`,
  materials: "bag  bag-100",
  order: "dose  1 g per flask",
  steps: `draw 8 mL from source into syringe
    inject syringe into bag
    draw dose from bag into spare
    inject spare into flask`,
};

describe("a dose drawn from a bag of declared overfill", () => {
  it("is measured by the strength in 112 mL, and the working says so", () => {
    const result = run(parts);
    expect(movedBy(result, 3).value.toText()).toBe("28");
    expect(movingWork(result, result.steps[2]!).map(({ text }) => text)).toContain(
      "the stated overfill of bag is counted in its strength, at its mean",
    );
    expect([...result.overfilled]).toEqual(["bag"]);
  });

  it("counts none where the bag is emptied, or given as it stands", () => {
    const all = run({ ...parts, steps: parts.steps.replace("draw dose from bag", "draw all from bag") });
    expect(movedBy(all, 3).value.toText()).toBe("108");
    const given = run({ ...parts, steps: "draw 8 mL from source into syringe\n    inject syringe into bag" });
    expect(given.overfilled.size).toBe(0);
  });

  it("counts none for fluid that is drawn before anything was added", () => {
    const steps = "draw 50 mL from bag into spare\n    inject spare into flask";
    expect(run({ ...parts, order: "", steps }).overfilled.size).toBe(0);
  });
});
