/**
 * What a finished container holds, worked out by the bench: ions in mmol and mEq, in all and per litre, percent strength, osmolarity
 * and weight. Printed figures are rows of tests/reference/units/conversions.json and practice/limits.json, named beside them.
 */
import { describe, expect, it } from "vitest";
import { deadSpaces } from "../../language/bench/dead-space.ts";
import { solutionOf } from "../../language/bench/solution.ts";
import { defaultPolicy } from "../../language/model/policy.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { type Parts, run, vessel } from "../worked/recipe.ts";

function solution(parts: Parts, name = "flask") {
  const result = run(parts);
  return solutionOf(result, vessel(result, name))!;
}

const text = (value: Exact | undefined, digits = 4) => value?.roundedToDigits(digits).toText();
const litre = (value: Exact | undefined, digits = 4) => text(value?.times(Exact.of(1000)), digits);
const intoFlask = (amount: string, to: string) =>
  `draw ${amount} from source into syringe\n    inject syringe into flask\n    make up flask to ${to} with tank using spare`;

const saline: Parts = {
  drug: 'formula  "NaCl"\n  ion  sodium charge 1\n  ion  chloride charge -1',
  stock: "container  bottle\n  strength  234 mg/mL\n  fill  1 L\n  capacity  2 L",
  steps: intoFlask("9 g", "1 L"),
};

describe("ions and particles of a salt", () => {
  it("sodium chloride 9 g in 1 L is 154 mmol of each ion and 308 mOsm/L (row osm-nacl-09)", () => {
    const found = solution(saline);
    const sodium = found.ions.find((i) => i.ion === "sodium")!;
    expect([text(sodium.mmol), text(sodium.mEq), text(sodium.mmolPerLitre)]).toEqual(["154", "154", "154"]);
    expect(litre(found.osmolarity?.least, 3)).toBe("308");
    expect(found.percents.map((p) => [p.name, p.percent.toText()])).toEqual([["remedy", "0.9"]]);
    expect(text(found.osmoles?.least, 3)).toBe("308");
  });

  it("magnesium sulfate 1 g is 8.11 mEq (the label of limits eq-mg prints 8.12, within 0.1 %), and 500 g in 1 L is 4,060 mOsm/L (row osm-mg-50)", () => {
    const magnesium = (amount: string, to: string): Parts => ({
      drug: 'formula  "MgSO4.7H2O"\n  ion  magnesium charge 2\n  ion  sulfate charge -2',
      stock: "container  bottle\n  strength  500 mg/mL\n  fill  2 L\n  capacity  3 L",
      steps: intoFlask(amount, to),
    });
    const one = solution(magnesium("1 g", "250 mL")).ions.find((i) => i.ion === "magnesium")!;
    expect(one.mEq!.over(Exact.of("8.12")).minus(Exact.one).abs().isBelow(Exact.of("0.001"))).toBe(true);
    expect([text(one.mEq, 3), text(one.mmol, 3), text(one.mEqPerLitre, 3)]).toEqual(["8.11", "4.06", "32.5"]);
    const strong = solution({ ...magnesium("500 g", "1000.001 mL") });
    expect(litre(strong.osmolarity?.least, 3)).toBe("4060");
  });
});

describe("particles of a salt that does not declare all of its ions", () => {
  const range = (drug: string, strength: string) => {
    const stock = `container  bottle\n  strength  ${strength}\n  fill  1 L\n  capacity  2 L`;
    const steps = "draw 1 L from source into syringe\n    inject syringe into flask";
    const { osmolarity } = solution({ drug, stock, steps });
    return [litre(osmolarity?.least), litre(osmolarity?.most), osmolarity?.uncounted.length];
  };
  it("counts what its formula leaves no choice about", () => {
    // Calcium chloride 100 mg/mL: 2,041 mOsm/L by 147.01 g/mol and three particles (a vial states 2,040, globalrph.com, sample osmolarity
    // calculations); magnesium sulfate 500 mg/mL: 4,057 (the same page).
    expect(range('formula  "CaCl2.2H2O"\n  ion  calcium charge 2', "100 mg/mL")).toEqual(["2041", "2041", 0]);
    expect(range('formula  "MgSO4.7H2O"\n  ion  magnesium charge 2', "500 mg/mL")).toEqual(["4057", "4057", 0]);
    expect(range('formula  "NaHCO3"\n  ion  sodium charge 1', "84 mg/mL")).toEqual(["2000", "2000", 0]);
  });

  it("gives a range where its charges may be met by one ion or by more", () => {
    // Calcium gluconate 100 mg/mL, 430.37 g/mol: two particles at least, three at most; 697 mOsm/L with both gluconates (the same page).
    expect(range('formula  "CaC12H22O14"\n  ion  calcium charge 2', "100 mg/mL")).toEqual(["464.7", "697.1", 1]);
    // A formula with a metal and no ion at all: sodium chloride 9 mg/mL is 154 or 308, never known to be 154.
    expect(range('formula  "NaCl"', "9 mg/mL")).toEqual(["154", "308", 1]);
  });

  it("bounds what is measured in units by what a solution can hold", () => {
    const stock = "container  bottle\n  strength  100 units/mL\n  fill  1 L\n  capacity  2 L";
    const steps =
      "draw 1 mL from source into syringe\n    inject syringe into flask\n    make up flask to 100 mL with tank using spare";
    const fluid = solution({ stock, steps }).osmolarity;
    // The vehicle of these examples states no osmolarity, so that nothing is bounded.
    expect(fluid?.most).toBeUndefined();
    const alone = solution({
      stock,
      steps: "draw 1 mL from source into syringe\n    inject syringe into flask",
    }).osmolarity;
    expect(litre(alone?.most)).toBe("25000");
  });
});

describe("what a stock says it contains", () => {
  const potassiumPhosphate = `stock phosphates {
  fluid  vehicle
  container  vial
  contains  potassium 4.4 mmol/mL
  contains  phosphate 3 mmol/mL
  fill  50 mL
  capacity  60 mL
}`;
  const parts: Parts = {
    ...saline,
    more: potassiumPhosphate,
    materials: "phos  phosphates",
    steps: "add 10 mL from phos to flask using spare",
  };

  it("is counted in the osmolarity: 3 mmol P and 4.4 mEq K in a mL are 7,400 mOsm/L (row osm-kphos)", () => {
    const found = solution(parts);
    expect(litre(found.osmolarity?.least)).toBe("7400");
    // The fluid it is dissolved in states none: the most is not known, and that is said.
    expect(found.osmolarity?.most).toBeUndefined();
    expect(found.osmolarity?.uncounted.map((u) => u.name)).toEqual(["vehicle"]);
  });

  it("has mEq of potassium and none of phosphate, which has no single charge (row valence-phosphate)", () => {
    const found = solution(parts);
    const potassium = found.ions.find((i) => i.ion === "potassium")!;
    const phosphate = found.ions.find((i) => i.ion === "phosphate")!;
    expect([text(potassium.mmol), text(potassium.mEq)]).toEqual(["44", "44"]);
    expect([text(phosphate.mmol), phosphate.mEq]).toEqual(["30", undefined]);
    expect(phosphate.unknown.join()).toMatch(/cannot be turned into mEq/);
  });

  it("adds up over all sources of a nutrition bag", () => {
    const amino = `stock amino {\n  fluid  vehicle\n  container  bottle\n  contains  phosphate 0.03 mmol/mL\n  fill  1 L\n  capacity  2 L\n}`;
    const found = solution({
      ...parts,
      more: `${potassiumPhosphate}\n${amino}`,
      materials: "phos  phosphates\n    acids  amino",
      steps: "add 10 mL from phos to flask using spare\n    add 500 mL from acids to flask using spare",
    });
    // 10 mL × 3 mmol/mL + 500 mL × 0.03 mmol/mL = 45 mmol in 510 mL; with 44 mmol of potassium 89 mOsm in all.
    const phosphate = found.ions.find((i) => i.ion === "phosphate")!;
    expect([text(phosphate.mmol), text(phosphate.mmolPerLitre)]).toEqual(["45", "88.24"]);
    expect(text(found.osmoles?.least)).toBe("89");
  });
});

describe("the weight of the filled container", () => {
  const heavy = (density: string, empty: string): Parts => ({
    ...saline,
    stock: `${saline.stock}\n  density  1.16 g/mL`,
    more: `stock bag-of-water {\n  fluid  vehicle\n  container  bag\n  fill  100 mL\n  capacity  200 mL\n  ${density}\n  ${empty}\n}`,
    materials: "bag  bag-of-water",
    steps: "draw 10 mL from source into syringe\n    inject syringe into bag",
  });
  it("is each part by its density with the bag itself", () => {
    // 100 mL × 0.998 g/mL + 10 mL × 1.16 g/mL + 8 g = 99.8 g + 11.6 g + 8 g
    const { weight } = solution(heavy("density  0.998 g/mL", "empty-weight  8 g"), "bag");
    expect([weight.content?.toText(), weight.filled?.toText(), weight.lacks]).toEqual(["111.4", "119.4", []]);
  });
  it("is open where one density is missing, and says which", () => {
    const { weight } = solution(heavy("", "empty-weight  8 g"), "bag");
    expect([weight.content, weight.filled]).toEqual([undefined, undefined]);
    expect(weight.lacks.join()).toMatch(/vehicle/);
  });
});

describe("dead space beside a small draw", () => {
  // Needle of 21 gauge 0.05 mL, of 18 gauge 0.07 mL (tests/reference rows needle-dead-space-21-23 and -18 of the study of dead
  // space); 1 mL syringe at the standard's limit of 0.07 mL (ISO 7886-1, row iso7886-dead-space-b1).
  const small = (needle: string): Parts => ({
    stock: "container  bottle\n  strength  10 mg/mL\n  fill  1 L\n  capacity  2 L",
    more: `device thin {\n  kind  needle\n  dead-space  0.05 mL\n}\ndevice thick {\n  kind  needle\n  dead-space  0.07 mL\n}\ndevice bare {\n  kind  needle\n}`,
    materials: `fine  syringe-1mL\n    needle  ${needle}\n    first  thin`,
    steps:
      "attach first to fine\n    replace first on fine with needle\n    draw 0.5 mL from source into fine dead-space included\n    draw 20 mL from source into syringe",
  });
  const found = (needle: string) => deadSpaces(run(small(needle)), defaultPolicy());

  it("is that of the syringe with what stands on it, as a share of the draw", () => {
    expect(found("thin").map((d) => [d.stays.toText(), d.share.toText(), d.stated])).toEqual([
      ["0.12", "0.24", "included"],
    ]);
    expect(found("thick").map((d) => [d.stays.toText(), d.share.toText()])).toEqual([["0.14", "0.28"]]);
  });
  it("is the least where a needle states none, and says so", () => {
    expect(found("bare").map((d) => [d.stays.toText(), d.lacks])).toEqual([["0.07", ["bare"]]]);
  });
});
