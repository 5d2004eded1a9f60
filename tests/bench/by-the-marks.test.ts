/**
 * A syringe with a scale measures at its marks, whether it is filled or a part is pushed out of it; what is emptied is emptied. The step
 * carries out the reading, half up (language/LANGUAGE.md, "draw"). Figures by hand.
 */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { run } from "../worked/recipe.ts";

const marked = "device marked {\n  kind  syringe\n  capacity  10 mL\n  graduation  0.5 mL\n}";
const vial = "container  vial\n  strength  10 mg/mL\n  fill  10 mL";

/** Draws 8 mL into a syringe marked every 0.5 mL, then the steps; the flask is the second of the two. */
const drawn = (steps: string) =>
  run({
    stock: vial,
    more: marked,
    materials: "measure  marked",
    steps: `draw 8 mL from source into measure\n    ${steps}`,
    preparation: "volume  1 mL",
  });

const told = (result: ReturnType<typeof run>) =>
  happened(result, "not-on-graduation").map(({ data }) => [data.asked.toText(), data.reading.toText(), data.how]);
const inFlask = (result: ReturnType<typeof run>) => result.finals[0]?.liquid.volume.toText();

describe("a part that is pushed out", () => {
  it.each([
    ["2.2 mL", "2", [["2.2", "2", "pushed"]]],
    ["2.25 mL", "2.5", [["2.25", "2.5", "pushed"]]],
    ["2.5 mL", "2.5", []],
    ["33 mg", "3.5", [["3.3", "3.5", "pushed"]]],
    // Up to the last mark is all of it, to the stop.
    ["7.9 mL", "8", []],
  ])("%s arrive as %s mL", (asked, arrives, expected) => {
    const result = drawn(`inject ${asked} from measure into flask`);
    expect(inFlask(result)).toBe(arrives);
    expect(told(result)).toEqual(expected);
  });

  it("is told for no small part of a full syringe, which is given out part by part", () => {
    const result = drawn("inject 0.5 mL from measure into flask\n    inject 0.5 mL from measure into second");
    expect(happened(result, "too-small-to-measure")).toEqual([]);
  });
});

describe("air that is expelled down to a volume", () => {
  it.each([
    ["7.5 mL", "7.5", []],
    ["7.3 mL", "7.5", [["7.3", "7.5", "kept"]]],
  ])("%s leaves %s mL", (asked, left, expected) => {
    const result = drawn(`expel air from measure to ${asked}\n    inject measure into flask`);
    expect(inFlask(result)).toBe(left);
    expect(told(result)).toEqual(expected);
  });

  it("keeps a volume that such a syringe measures badly", () => {
    const result = drawn("expel air from measure to 1 mL\n    inject measure into flask");
    expect(happened(result, "too-small-to-measure").length).toBe(1);
  });
});

describe("what is emptied", () => {
  // 5.3 mL and 5.8 mL lie between two marks: by the marks both vials would have to give 0.2 mL that is not there.
  it.each([
    ["0.3 mL", "5.3"],
    ["0.8 mL", "5.8"],
  ])("is pooled to the last drop, with a powder that takes up %s", (displacement, all) => {
    const result = run({
      stock: `container  powder-vial\n  content  500 mg\n  displacement  ${displacement}`,
      more: marked,
      materials: "measure  marked",
      steps: "reconstitute each of source with 5 mL from tank using syringe\n    pool source into flask using measure",
      preparation: "volume  1 mL",
    });
    expect(inFlask(result)).toBe(all);
    expect(told(result)).toEqual([]);
    expect(happened(result, "too-few-containers")).toEqual([]);
  });

  it("fills an infusor with all that is there, in as many loads as it takes", () => {
    const result = run({
      stock: "container  vial\n  strength  10 mg/mL\n  fill  24.2 mL",
      more: `${marked}\nstock plain-pump {\n  container  infusor\n  capacity  100 mL\n}`,
      materials: "measure  marked\n    pump  plain-pump",
      steps: "fill pump with all from source using measure\n    draw all from pump into syringe",
    });
    expect(result.steps[0]?.moved?.toText()).toBe("24.2");
    expect(told(result)).toEqual([]);
  });
});

// 2 vials of 5 mL each: the step moves 10 mL, as a draw into each of two syringes would.
describe("a reconstitution of each", () => {
  it("moves what all of them get", () => {
    const result = run({
      stock: "container  powder-vial\n  content  500 mg\n  displacement  0 mL",
      steps: "reconstitute each of source with 5 mL from tank using spare\n    draw 10 mL from source into syringe",
    });
    expect(result.steps[0]?.moved?.toText()).toBe("10");
  });
});

describe("amounts in other forms", () => {
  const form = { drug: 'counted-as  base\n  salt  acetate 1.2 g for 1 g\n  ion  magnesium charge 2\n  formula  "Mg"' };
  const stock = "container  vial\n  strength  12 mg/mL as acetate\n  fill  50 mL";
  it.each([
    ["transfer 24 mg as acetate from source to flask using spare", "2"],
    ["transfer 20 mg as base from source to flask using spare", "2"],
    ["fill flask with 24 mg as acetate from source using spare", "2"],
    // 24.305 mg of magnesium are 1 mmol.
    ["fill flask with 1 mmol of magnesium from source using spare", "2.4305"],
  ])("%s moves %s mL", (steps, moved) => {
    expect(run({ ...form, stock, steps }).steps[0]?.moved?.toText()).toBe(moved);
  });
});
