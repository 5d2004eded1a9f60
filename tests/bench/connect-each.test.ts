/** Sets, connectors and reservoirs that serve each container of a material alike. Figures by hand. */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { eachVolume } from "../../language/bench/spoken.ts";
import { loadsOf } from "../../language/working/moving.ts";
import { run } from "../worked/recipe.ts";

const more = `device line {
  kind            tubing
  priming-volume  3 mL
}
device join {
  kind  connector
}
device small-syringe {
  kind      syringe
  capacity  30 mL
}
stock reservoir {
  container  cassette
  capacity   200 mL
}`;
const bench = (steps: string, materials = "") =>
  run({
    stock: "container  vial\n  strength  50 mg/mL\n  fill  1 L\n  capacity  2 L",
    more,
    materials: `pumps  3 x reservoir\n    lines  3 x line\n    fillers  3 x plain-syringe\n    joins  3 x join\n    load  small-syringe\n    ${materials}`,
    order: "dose  2 g per pumps\n    makes  3 x pumps\n    final-volume  43 mL line included",
    steps,
  });
const joined = (steps: string) => {
  const result = bench(steps);
  return (result.groups.get("lines")?.things ?? []).map((part) => (part.is === "part" && part.on ? part.on.index : 0));
};

describe("connect to each of a set", () => {
  it("takes one of as many sets for each container", () => {
    expect(joined("connect lines to each of pumps")).toEqual([1, 2, 3]);
  });

  it("joins pairs of syringes, each by a connector of its own", () => {
    const result = bench("connect fillers to each of twins using joins", "twins  3 x plain-syringe");
    const pairs = (result.groups.get("joins")?.things ?? []).map((part) =>
      part.is === "part" ? [part.on?.index, part.joins?.name, part.joins?.index] : [],
    );
    expect(pairs).toEqual([
      [1, "twins", 1],
      [2, "twins", 2],
      [3, "twins", 3],
    ]);
  });

  it("tells a set with too few lines, and one syringe that is to hang on several", () => {
    const few = bench("connect lines to each of pumps\n    connect lines to each of more", "more  reservoir");
    expect(happened(few, "already-attached")).toHaveLength(1);
    const one = bench("connect syringe to each of fillers using joins");
    expect(happened(one, "tip-occupied")).toHaveLength(2);
  });

  it("serves a set in turn with the one connector there is", () => {
    const steps =
      "draw 40 mL from source into syringe\n    expel air from syringe\n    connect syringe to each of fillers using cone\n    inject 10 mL from syringe into each of fillers\n    remove cone from syringe";
    const result = bench(steps, "cone  join");
    for (const kind of ["already-attached", "joined-to-another", "not-attached"] as const)
      expect(happened(result, kind)).toEqual([]);
    const bare = happened(result, "no-needle-attached").map(({ data }) => data.other.name);
    expect(bare).toEqual(["source"]);
    expect(result.groups.get("fillers")?.things.map((t) => t.is === "vessel" && t.liquid.volume.toText())).toEqual([
      "10",
      "10",
      "10",
    ]);
  });

  it("is told where liquid moves between two that the connector does not join", () => {
    const [joined, mistaken] = ["second", "spare"].map((name) =>
      bench(
        `draw 10 mL from source into syringe\n    expel air from syringe\n    connect syringe to ${name} using cone\n    inject syringe into second`,
        "cone  join\n    second  plain-syringe",
      ),
    );
    expect(happened(joined!, "joined-to-another")).toEqual([]);
    expect(happened(mistaken!, "joined-to-another").map(({ data }) => [data.joined.name, data.other.name])).toEqual([
      ["spare", "second"],
    ]);
  });

  it("is not guessed without the words, nor for sets of another number", () => {
    expect(() => bench("connect lines to pumps")).toThrow(/not-each-of/);
    expect(() => bench("connect fillers to each of twins using joins", "twins  2 x plain-syringe")).toThrow(
      /not-each-of/,
    );
  });
});

describe("prime and fill each of a set", () => {
  const steps =
    "prime each of lines with 4 mL from tank\n    connect lines to each of pumps\n    fill each of pumps with 40 mL from source using load";

  it("fills each line, and each reservoir in as many loads as it takes", () => {
    const result = bench(steps);
    // 3 mL stand in each line, and 2 g in 40 mL go in beside them.
    expect(result.finals.filter(({ name }) => name === "pumps").map(({ liquid }) => liquid.volume.toText())).toEqual([
      "43",
      "43",
      "43",
    ]);
    const [, , filled] = result.steps;
    expect(eachVolume(filled!)!.toText()).toBe("40");
    expect(filled!.moved!.toText()).toBe("120");
    expect(loadsOf(filled!)).toBe("in 2 loads each: 30 mL + 10 mL");
    const { verb, slots } = result.plan.steps[2]!;
    expect(verb.sentence(slots as never, filled!)).toBe("Fill each of pumps with 40 mL from source with load.");
  });

  it("is told where one line is primed and three are connected", () => {
    const result = bench(steps.replace("prime each of lines", "prime lines"));
    expect(result.finals.filter(({ name }) => name === "pumps").map(({ liquid }) => liquid.volume.toText())).toEqual([
      "43",
      "40",
      "40",
    ]);
  });
});
