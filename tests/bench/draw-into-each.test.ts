/** A set served from the same containers: what each gets, what the step moves in all, and how many containers that takes. Figures by hand. */
import { describe, expect, it } from "vitest";
import { deadSpaces } from "../../language/bench/dead-space.ts";
import { vesselsOf } from "../../language/bench/setup.ts";
import { eachVolume } from "../../language/bench/spoken.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { movingWork } from "../../language/working/moving.ts";
import { countOf, run } from "../worked/recipe.ts";

const set = (count: number, dose: string, step: string, stock = "fill  10 mL") =>
  run({
    stock: `container  vial\n  strength  500 mg/mL\n  ${stock}`,
    materials: `set  ${count} x plain-syringe\n    flasks  ${count} x empty-flask`,
    order: `dose  ${dose} per set`,
    steps: step,
  });

const held = (result: ReturnType<typeof run>, name: string) => [
  ...new Set(vesselsOf(result.groups.get(name)).map(({ liquid }) => liquid.volume.toText())),
];

describe("a draw into each of a set", () => {
  it.each([
    [4, "2 g", "4", "16", "2"],
    // One vial for each syringe: it is empty when the next one is filled.
    [4, "5 g", "10", "40", "4"],
    // 30 x 4 mL from vials of 10 mL; 6 x 24 mL are 14.4 vials.
    [30, "2 g", "4", "120", "12"],
    [6, "12 g", "24", "144", "15"],
  ])("%i x %s: %s mL each, %s mL in all, from %s vials", (count, dose, each, all, vials) => {
    const result = set(count, dose, "draw dose from source into each of set");
    expect(held(result, "set")).toEqual([each]);
    expect(result.steps[0]!.moved!.toText()).toBe(all);
    expect(eachVolume(result.steps[0]!)!.toText()).toBe(each);
    expect(countOf(result, "source").value.toText()).toBe(vials);
  });

  it("is worked out for one and told for each", () => {
    const result = set(2, "2 g", "draw dose from source into each of set");
    expect(movingWork(result, result.steps[0]!).map(({ text }) => text)).toEqual([
      "2 g = 2,000 mg",
      "2,000 mg ÷ 500 mg/mL = 4 mL",
      "shared: set 1 of 2: 4 mL; set 2 of 2: 4 mL; together 8 mL",
    ]);
  });

  it("of a long row says how many, and none by its name", () => {
    const result = set(10, "1 g", "draw dose from source into each of set");
    expect(movingWork(result, result.steps[0]!).at(-1)!.text).toBe("shared: 2 mL into each of 10; together 20 mL");
  });

  it("is small where each draw is small, however much they are together", () => {
    const result = set(20, "100 mg", "draw dose from source into each of set");
    expect(result.steps[0]!.moved!.toText()).toBe("4");
    expect(deadSpaces(result, defaultPolicy()).map(({ drawn }) => drawn.toText())).toEqual(["0.2"]);
  });
});

describe("an addition to each of a set", () => {
  it.each([
    [4, "5 g", "10", "4"],
    [30, "2 g", "4", "12"],
  ])("%i x %s: %s mL each, from %s vials", (count, dose, each, vials) => {
    const result = set(count, dose, `add ${dose} from source to each of flasks using spare`);
    expect(held(result, "flasks")).toEqual([each]);
    expect(countOf(result, "source").value.toText()).toBe(vials);
  });
});
