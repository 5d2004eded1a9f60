/**
 * Counts that a recipe leaves open, one following from the other: as many vials as the dose needs, as many ampoules of water as the vials
 * need. Figures by hand.
 */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { countOf, run } from "../worked/recipe.ts";

const powder = (dose: string, water = "") =>
  run({
    stock: "container  powder-vial\n  content  50 mg\n  capacity  20 mL\n  displacement  0 mL",
    more: `stock water-ampoule {\n  fluid  vehicle\n  container  ampoule\n  fill  10 mL\n}`,
    materials: `water  ${water}water-ampoule`,
    order: `dose  ${dose} per syringe`,
    steps:
      "reconstitute each of source with 12 mL from water using spare\n    swirl source until dissolved\n    draw dose from source into syringe",
  });

const counts = (result: ReturnType<typeof run>) =>
  ["source", "water"].map((name) => countOf(result, name).value.toText());

describe("counts that follow from each other", () => {
  // 243 mg are 4.86 vials; 5 vials take 60 mL, 6 ampoules. 300 mg: 6 vials, 72 mL, 8 ampoules. 1 g: 20 vials, 240 mL, 24 ampoules.
  it.each([
    ["50 mg", ["1", "2"]],
    ["243 mg", ["5", "6"]],
    ["300 mg", ["6", "8"]],
    ["1 g", ["20", "24"]],
  ])("%s of 50 mg in 12 mL, from ampoules of 10 mL", (dose, expected) => {
    const result = powder(dose);
    expect(counts(result)).toEqual(expected);
    expect(happened(result, "reconstituted-otherwise")).toEqual([]);
    expect(happened(result, "draw-beyond-content")).toEqual([]);
  });

  // 39 mL from vials that yield 10.2 mL are 4 vials; their 40 mL of water are 4 ampoules. What the vials lack for want of water is no lack of vials.
  it("do not count what is missing for want of another", () => {
    const result = run({
      stock: "container  powder-vial\n  content  520 mg\n  capacity  20 mL\n  displacement  0.2 mL",
      more: `stock water-ampoule {\n  fluid  vehicle\n  container  ampoule\n  fill  10 mL\n}`,
      materials: "water  water-ampoule",
      order: "dose  1,988 mg per syringe",
      steps: "reconstitute each of source with 10 mL from water using spare\n    draw 39 mL from source into syringe",
    });
    expect(counts(result)).toEqual(["4", "4"]);
    expect(result.steps[0]?.moved?.toText()).toBe("40");
  });

  // 15 mL of vials of 10 mL, made up to 60 mL: 45 mL, 3 ampoules of 15 mL; beside one vial it would be 50 mL, and a fourth.
  it("do not count the diluent that stands in for a missing drug", () => {
    const result = run({
      stock: "container  vial\n  strength  10 mg/mL\n  fill  10 mL",
      more: `stock water-ampoule {\n  fluid  vehicle\n  container  ampoule\n  fill  15 mL\n}`,
      materials: "water  water-ampoule",
      steps: "draw 15 mL from source into syringe\n    make up syringe to 60 mL with water",
    });
    expect(counts(result)).toEqual(["2", "3"]);
  });

  it("are told where one is stated and too few", () => {
    const told = happened(powder("300 mg", "7 x "), "too-few-containers");
    expect(told.map(({ data }) => [data.name, data.stated, data.needed])).toEqual([["water", 7, 8]]);
  });
});

describe("joining and making up", () => {
  const small = {
    stock: "container  vial\n  strength  10 mg/mL\n  fill  1 L\n  capacity  2 L",
    more: "device joint {\n  kind  connector\n}\nstock water-ampoule {\n  fluid  vehicle\n  container  ampoule\n  fill  10 mL\n}",
    materials: "joint  joint\n    water  water-ampoule\n    last  plain-syringe",
  };

  it("takes a connector that stands on one of the two already", () => {
    const put = (first: string) =>
      run({
        ...small,
        steps: `draw 2 mL from source into syringe\n    attach joint to ${first}\n    connect syringe to spare using joint\n    inject syringe into spare`,
      });
    for (const first of ["syringe", "spare"]) expect(happened(put(first), "already-attached")).toEqual([]);
  });

  it("does not take it from a third syringe", () => {
    const result = run({
      ...small,
      steps:
        "draw 2 mL from source into syringe\n    attach joint to last\n    connect syringe to spare using joint\n    inject syringe into spare",
    });
    expect(happened(result, "already-attached").length).toBe(1);
  });

  it("does not join a syringe that still has its needle on, or one that is capped", () => {
    const put = (steps: string) =>
      run({
        ...small,
        more: `${small.more}\ndevice point {\n  kind  needle\n}\ndevice lid {\n  kind  cap\n}`,
        materials: `${small.materials}\n    point  point\n    lid  lid`,
        steps,
      });
    const joined = "attach joint to spare\n    connect syringe to spare using joint\n    inject syringe into spare";
    const onNeedle = put(`attach point to syringe\n    draw 2 mL from source into syringe\n    ${joined}`);
    expect(happened(onNeedle, "tip-occupied").map(({ data }) => [data.syringe.name, data.by.name])).toEqual([
      ["syringe", "point"],
    ]);
    const bare = put(
      `attach point to syringe\n    draw 2 mL from source into syringe\n    remove point from syringe\n    ${joined}`,
    );
    expect(happened(bare, "tip-occupied")).toEqual([]);
    const draw = "attach point to syringe\n    draw 2 mL from source into syringe\n    remove point from syringe";
    const noNeedle = (on: string) =>
      happened(put(`${draw}\n    attach ${on} to spare\n    inject syringe into spare`), "no-needle-attached").length;
    expect([noNeedle("lid"), noNeedle("joint")]).toEqual([1, 0]);
  });

  it("counts up what is used up, and not what is finished", () => {
    const taken = run({
      stock: "container  vial\n  strength  10 mg/mL\n  fill  20 mL",
      more: "stock small-vial {\n  fluid  vehicle\n  container  vial\n  fill  20 mL\n}",
      materials: "done  small-vial",
      order: "dose  10 mg per done",
      steps:
        "withdraw 60 mL from done using spare and discard\n    draw dose from source into syringe\n    inject syringe into done",
    });
    expect(happened(taken, "draw-beyond-content").length).toBe(1);
    expect(countOf(taken, "done").value.toText()).toBe("1");
  });

  it("makes up from an opened ampoule without a word on air", () => {
    const result = run({
      ...small,
      steps: "draw 2 mL from source into syringe\n    open water\n    make up syringe to 10 mL with water",
    });
    expect(happened(result, "air-into-ampoule")).toEqual([]);
  });

  it("reads a syringe that is made up at the mark of all that it holds", () => {
    const filled = (draw: string) =>
      run({
        ...small,
        materials: `${small.materials}\n    part  syringe-10mL`,
        steps: `draw ${draw} from source into part\n    make up part to 10 mL with tank`,
      });
    // The last half millilitre is not measured by itself; the draw of one before is.
    expect(happened(filled("9.4 mL"), "too-small-to-measure")).toEqual([]);
    expect(happened(filled("1 mL"), "too-small-to-measure").length).toBe(1);
  });

  it("mixes a bag once that is made up right after the drug, and twice where more is added", () => {
    const told = (then: string) => {
      const first =
        "add 50 mL from tank to flask using spare\n    draw 2 mL from source into syringe\n    inject syringe into flask";
      return happened(run({ ...small, steps: `${first}\n    ${then}` }), "added-before-mixed").length;
    };
    expect(told("make up flask to 100 mL with tank using spare")).toBe(0);
    expect(told("add 48 mL from tank to flask using spare")).toBe(1);
    expect(told("make up flask to 100 mL with source using spare")).toBe(1);
  });

  it("mixes plain diluents once, and before a drug comes to what is not mixed", () => {
    // Base solutions of a nutrition bag go in one after another; each drug after them is mixed in (common practice).
    const told = (last: string) => {
      const first =
        "add 2 mL from source to flask using syringe\n    add 50 mL from tank to flask using spare\n    add 10 mL from water to flask using other";
      return happened(
        run({
          ...small,
          materials: `${small.materials}\n    other  plain-syringe`,
          steps: `open water\n    ${first}\n    ${last}`,
        }),
        "added-before-mixed",
      ).length;
    };
    expect(told("mix flask by inverting")).toBe(0);
    expect(told("add 1 mL from source to flask using syringe")).toBe(1);
  });

  it("has nothing to mix where one solution comes in several syringes", () => {
    // 10 mL of one dilution in each of three syringes, emptied into one flask.
    const told = (third: string, between = "") => {
      const working =
        "add 10 mL from source to second using spare\n    make up second to 40 mL with tank using spare\n    mix second by inverting";
      const into = ["spare", "other", "third"].map(
        (name) =>
          `draw 10 mL from ${name === "third" ? third : "second"} into ${name}\n    inject ${name} into flask${between}`,
      );
      return happened(
        run({
          ...small,
          materials: `${small.materials}\n    other  plain-syringe\n    third  plain-syringe`,
          steps: `${working}\n    ${into.join("\n    ")}`,
        }),
        "added-before-mixed",
      ).length;
    };
    expect(told("second")).toBe(0);
    // Twice as strong comes last: the first two are alike, so that it is the first thing there is to mix.
    expect(told("source")).toBe(0);
    // Thinned from one syringe to the next: of the same products, and no longer one solution.
    expect(told("second", "\n    add 10 mL from tank to second using syringe\n    mix second by inverting")).toBe(1);
  });
});
