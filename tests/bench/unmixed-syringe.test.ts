/**
 * Two liquids drawn into one syringe lie in layers until they are mixed (common practice: mix before sampling, transferring or labelling,
 * rows `technique-rules mix-after-each`): a part of it is no part of the mixture, and in an empty container it is no mixture yet.
 */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { run } from "../worked/recipe.ts";

const layered = (steps: string) =>
  run({
    stock: "container  vial\n  strength  50 mg/mL\n  fill  10 mL",
    order: "dose  100 mg per flask",
    steps: `draw 100 mg from source into syringe\n    draw 8 mL from tank into syringe on top\n    expel air from syringe\n    ${steps}\n    label flask`,
    preparation: "form  solution-for-infusion",
  });
const drawn = (steps: string) => happened(layered(steps), "drawn-before-mixed").map(({ data }) => data.way);
const left = (steps: string) => happened(layered(steps), "left-unmixed").map(({ data }) => data.vessel.name);
const mixed = "mix syringe by inverting 10 times\n    ";

describe("two liquids in one syringe", () => {
  it("are told where a part is pushed out before they are mixed, and once", () => {
    expect(drawn("inject 5 mL from syringe into flask")).toEqual(["pushed"]);
    expect(left("inject 5 mL from syringe into flask")).toEqual([]);
    expect(drawn(`${mixed}inject 5 mL from syringe into flask`)).toEqual([]);
  });

  it("are told where a part is expelled before they are mixed", () => {
    expect(drawn("expel air from syringe to 5 mL\n    inject syringe into flask")).toEqual(["expelled"]);
    expect(drawn(`${mixed}expel air from syringe to 5 mL\n    inject syringe into flask`)).toEqual([]);
    // The mark it stands at: nothing leaves.
    expect(drawn("expel air from syringe to 10 mL\n    inject syringe into flask")).toEqual([]);
  });

  it("lie in layers in an empty container too", () => {
    expect(left("inject syringe into flask")).toEqual(["flask"]);
    expect(drawn("inject syringe into flask")).toEqual([]);
    expect(left("inject syringe into flask\n    mix flask by inverting 10 times")).toEqual([]);
    expect(left(`${mixed}inject syringe into flask`)).toEqual([]);
  });
});

it("one liquid is mixed as it is", () => {
  const result = run({
    stock: "container  vial\n  strength  50 mg/mL\n  fill  10 mL",
    order: "dose  100 mg per flask",
    steps: "draw 150 mg from source into syringe\n    inject 100 mg from syringe into flask\n    label flask",
    preparation: "form  solution-for-infusion",
  });
  expect([...happened(result, "drawn-before-mixed"), ...happened(result, "left-unmixed")]).toEqual([]);
});
