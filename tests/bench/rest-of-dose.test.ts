/** What is left of a dose once a part of it was drawn, by hand: 2 g of 50 mg/mL are 40 mL, of which one syringe takes 25 mL. */
import { describe, expect, it } from "vitest";
import { occurrenceAt, sameName } from "../../language/answers/occurrences.ts";
import { happened } from "../../language/bench/run.ts";
import { Library } from "../../language/library.ts";
import { movingWork } from "../../language/working/moving.ts";
import { movedBy, type Parts, recipeText, run } from "../worked/recipe.ts";

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

  it("goes on in another container of the same liquid", () => {
    const steps = "draw 25 mL from twin into syringe\n    draw rest of dose from source into spare";
    expect(moved({ steps }, 2)).toBe("15");
    const result = run({ ...parts, steps });
    expect(movingWork(result, result.steps[1]!)[0]?.text).toBe("dose 2 g − 1.25 g drawn before = 0.75 g");
  });

  it("does not count another strength, nor a whole dose drawn elsewhere", () => {
    const weaker = parts.more!.replace("50 mg/mL", "25 mg/mL");
    const steps = "draw 25 mL from twin into syringe\n    draw rest of dose from source into spare";
    expect(moved({ more: weaker, steps }, 2)).toBe("40");
    const whole =
      "draw dose from twin into syringe\n    draw 25 mL from source into spare\n    draw rest of dose from source into spare on top";
    expect(moved({ steps: whole }, 3)).toBe("15");
  });

  it("takes one more container where the one in hand does not reach, and says so", () => {
    const stock = "container  vial\n  strength  50 mg/mL\n  fill  30 mL";
    const said = (first: string) => {
      const steps = `draw ${first} from source into syringe\n    draw rest of dose from source into spare`;
      const result = run({ ...parts, stock, steps });
      const { verb, slots } = result.plan.steps[1]!;
      return [result.groups.get("source")?.things.length, verb.sentence(slots as never, result.steps[1]!)];
    };
    expect(said("25 mL")).toEqual([
      2,
      "Draw rest of dose (15 mL: 5 mL from source 1 of 2, then 10 mL from source 2 of 2) from source into spare.",
    ]);
    // The first is emptied to the last drop by its label, and gives the strength all the same.
    expect(said("30 mL")).toEqual([2, "Draw rest of dose (10 mL) from source into spare."]);
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

describe("the dose of one of several drugs", () => {
  /** 1 g of remedy and 500 mg of helper are ordered; one bottle holds both, 40 mg and 10 mg in each mL. */
  const both: Partial<Parts> = {
    more: `drug helper {
  source  guide
  name    "helper"
}
stock helper-vial {
  drug  helper
  container  vial
  strength  100 mg/mL
  fill  1 L
}
stock mixing-bottle {
  container  empty-bottle
  capacity  2 L
}`,
    materials: "assistant  helper-vial\n    mixture  mixing-bottle",
    order: "dose  1 g per flask\n    additive  helper 500 mg per flask",
  };
  const mixed =
    "add 80 mL from source to mixture using syringe\n    add 10 mL from assistant to mixture using syringe\n";
  const runBoth = (steps: string) => run({ ...parts, ...both, steps: `${mixed}    ${steps}` });
  const volume = (steps: string, step: number) => movedBy(runBoth(steps), step).value.toText();

  it("is drawn from what holds both", () => {
    // 4 g of remedy and 1 g of helper in 90 mL: 1 g of the one is 22.5 mL, 500 mg of the other 45 mL.
    expect(volume("draw dose of remedy from mixture into spare", 3)).toBe("22.5");
    expect(volume("draw dose of helper from mixture into spare", 3)).toBe("45");
    expect(volume("draw 9 mL from mixture into syringe\n    draw rest of remedy from mixture into spare", 4)).toBe(
      "13.5",
    );
    expect(volume("draw 9 mL from mixture into syringe\n    draw rest of helper from mixture into spare", 4)).toBe(
      "36",
    );
  });

  it("is said and worked with the name", () => {
    const result = runBoth("draw 9 mL from mixture into syringe\n    draw rest of helper from mixture into spare");
    const { verb, slots } = result.plan.steps[3]!;
    expect(verb.sentence(slots as never, result.steps[3]!)).toBe(
      "Draw rest of helper (36 mL) from mixture into spare.",
    );
    const lines = movingWork(result, result.steps[3]!).map(({ text }) => text);
    expect(lines[0]).toBe("dose 500 mg − 100 mg drawn before = 400 mg");
    expect(lines.at(-1)).toMatch(/= 36 mL$/);
  });

  it("is not guessed where the step names none", () => {
    expect(() => runBoth("draw dose from mixture into spare")).toThrow(/figure-not-known/);
    expect(() => runBoth("draw rest of dose from mixture into spare")).toThrow(/figure-not-known/);
  });

  it("is not known of a drug that is not ordered, or not there", () => {
    expect(() => runBoth("draw dose of helper from source into spare")).toThrow(/amount-not-computable/);
    expect(() => runBoth("draw dose of other from mixture into spare")).toThrow(/figure-not-known/);
  });
});

it("a drug that a step names is renamed with it, and never taken for a material of that name", () => {
  const library = new Library({ asOf: "2026-11-25" });
  const recipe = recipeText({
    ...parts,
    materials: "remedy  source",
    steps: "draw dose of remedy from remedy into syringe",
  });
  library.open("worked.misce", recipe);
  const before = (at: number) =>
    sameName(library, occurrenceAt(library, "worked.misce", at)!).map(({ at: { chunk, start } }) =>
      chunk.text.slice(0, start).split("\n").at(-1)!.trimStart(),
    );
  const ofDrug = before(recipe.indexOf("drug remedy") + "drug ".length);
  expect(ofDrug).toContain("draw dose of ");
  expect(ofDrug).not.toContain("draw dose of remedy from ");
  expect(before(recipe.indexOf("remedy  source"))).toEqual(["", "draw dose of remedy from "]);
});
