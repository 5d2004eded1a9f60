/** What a powder comes to where its label rounds and its displacement is known. Figures by hand. */
import { describe, expect, it } from "vitest";
import { happened } from "../../language/bench/run.ts";
import { vesselsOf } from "../../language/bench/setup.ts";
import { run } from "../worked/recipe.ts";

/** 1 g in 10 mL of the vehicle. */
const dissolve = (gives: string, displacement: string, put = "10 mL") =>
  run({
    stock: `container  powder-vial\n  content  1 g\n  ${displacement}\n  reconstitute {\n    with  10 mL of vehicle\n    gives  ${gives}\n  }`,
    order: "dose  1 g per flask",
    steps: `disinfect source, tank\n    reconstitute source with ${put} from tank using syringe`,
  });
const volume = (result: ReturnType<typeof dissolve>) =>
  vesselsOf(result.groups.get("source"))[0]!.liquid.volume.toText();

describe("a powder whose label says about", () => {
  it("takes up the room that its displacement says", () => {
    const result = dissolve("about 95 mg/mL", "displacement  0.6 mL");
    expect(volume(result)).toBe("10.6");
    expect(happened(result, "gives-and-displacement-differ")).toEqual([]);
    expect(volume(dissolve("about 95 mg/mL", "displacement  0.6 mL", "20 mL"))).toBe("20.6");
  });

  it("does so where the round figure would leave less than went in", () => {
    const result = dissolve("about 105 mg/mL", "displacement  0.1 mL");
    expect(volume(result)).toBe("10.1");
    expect(happened(result, "displacement-negative")).toEqual([]);
  });

  it("is told where the two lie further apart than a label rounds", () => {
    const result = dissolve("about 80 mg/mL", "displacement  0.6 mL");
    expect(happened(result, "gives-and-displacement-differ")).toHaveLength(1);
  });

  it("is read as it stands where no displacement is known", () => {
    expect(volume(dissolve("about 80 mg/mL", ""))).toBe("12.5");
  });

  it("is told of a label that does not round, however near", () => {
    const result = dissolve("95 mg/mL", "displacement  0.6 mL");
    expect(happened(result, "gives-and-displacement-differ")).toHaveLength(1);
  });
});
