/** Packs of one drug in one strength are drawn together as one liquid. Common practice, from memory; the figures are invented. */
import { describe, expect, it } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { findingsOf } from "../checks/findings-of.ts";

const ampoule = standardLibrary.match(/stock magnesium-ampoule \{[\s\S]*?\n\}\n/)![0];
const shelf = '\nlots small-ampoule {\n  lot "KQ-9901"  expires 2027-04\n}\n';

/** 6 g: 10 mL of the ampoule of the standard library and 2 mL of a smaller one, changed as said. */
function fromBoth(draw: string, ...changes: [string, string][]): string[] {
  let small = ampoule.replace("magnesium-ampoule", "small-ampoule").replace("fill       10 mL", "fill       5 mL");
  for (const [from, to] of changes) small = small.replace(from, to);
  const recipe: [string, string][] = [
    ["dose            4 g per bag", "dose            6 g per bag"],
    ["magnesium-4g {", "magnesium-6g {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate 6 g in"],
    ["    bag          saline-bag-100\n", "    bag          saline-bag-100\n    small        small-ampoule\n"],
    [
      "    tap mag\n    disinfect mag\n    open mag\n",
      "    tap mag, small\n    disinfect mag, small\n    open mag, small\n",
    ],
    ["expiry of mag, bag", "expiry of mag, small, bag"],
    ["keep mag, filter", "keep mag, small, filter"],
    ["syringe      syringe-10mL", "syringe      syringe-20mL"],
    ["    draw 4 g from mag into syringe  = 8 mL\n", `    ${draw}\n`],
    ["concentration  37.04 mg/mL", "concentration  53.57 mg/mL"],
  ];
  const text = recipe.reduce((all, [from, to]) => {
    expect(all.split(from).length, from).toBe(2);
    return all.replace(from, () => to);
  }, standardLibrary);
  const aside = new Set(["filter-shared", "additive-over-share"]);
  return findingsOf(text + small + shelf)
    .map((f) => f.name)
    .filter((name) => !aside.has(name));
}

describe("two packs of one drug, strength and form", () => {
  it.each(["draw 6 g", "draw dose", "draw 12 mL"])("%s from both is one draw of one liquid", (draw) => {
    expect(fromBoth(`${draw} from mag, small into syringe  = 12 mL`)).toEqual([]);
  });

  it("may write the strength as an amount in the whole of the pack", () => {
    const written: [string, string] = ["strength   500 mg/mL", "strength   2.5 g in 5 mL"];
    expect(fromBoth("draw 6 g from mag, small into syringe  = 12 mL", written)).toEqual([]);
  });

  it("are not taken for each other to any harm, though their packs look alike", () => {
    const alike: [string, string] = ["  doses ", "  looks-like  magnesium-ampoule\n  doses "];
    expect(fromBoth("draw 12 mL from mag, small into syringe", alike)).toEqual([]);
    const weaker: [string, string] = ["strength   500 mg/mL", "strength   200 mg/mL"];
    expect(fromBoth("draw 12 mL from mag, small into syringe", alike, weaker)).toContain("look-alike-containers");
  });

  it.each<[string, [string, string]]>([
    ["of another strength", ["strength   500 mg/mL", "strength   200 mg/mL"]],
    ["counted in another form", ["strength   500 mg/mL", "strength   500 mg/mL as magnesium-sulfate-anhydrous"]],
    ["with something else in it", ["  doses ", "  contains   sodium 0.1 mmol/mL\n  doses "]],
  ])("is a second liquid %s", (_, change) => {
    expect(fromBoth("draw 12 mL from mag, small into syringe", change)).toContain("second-drug-in-syringe");
  });
});
