/**
 * Label lines in the words of wards, held against the recipe: catheters by their short names, fluids by theirs, ions by their symbols. Of the
 * sample: magnesium sulfate 4 g (heptahydrate, 246.47 g/mol: 16.23 mmol, twice that in mEq) in 100 mL of sodium chloride 0.9 % (15.4 mmol of
 * sodium), by a peripheral vein. That the tip of a PICC or CVC lies in a central vein: common practice, from memory.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { findingsOf } from "./findings-of.ts";
import { areSilent, areTold } from "./sayings.ts";

const bag = "magnesium-4g";

describe("catheters", () => {
  areTold(bag, [
    ["Via PICC line only", "PICC", "order says peripheral"],
    ["Via CVC", "CVC", "order says peripheral"],
    ["Central infusion only", "Central infusion"],
  ]);
  areSilent(bag, ["Via PICC or peripheral cannula", "Not via PICC", "For peripheral IV"]);
});

describe("fluids", () => {
  areTold(bag, [
    ["Magnesium sulfate 4 g in NS 250 mL", "250 mL"],
    ["in normal saline 250 mL", "250 mL"],
  ]);
  areSilent(bag, ["Magnesium sulfate 4 g in NS 100 mL", "in normal saline 100 mL", "Flush with NS 20 mL"]);
});

describe("ions", () => {
  areTold(bag, [
    ["Mg2+ 32 mmol", "32 mmol", "order says 16.23 mmol"],
    ["Contains 32 mmol Mg2+", "32 mmol of magnesium", "order says 16.23 mmol"],
    ["K+ 20 mmol", "potassium 20 mmol", "recipe says no potassium"],
    ["20 mmol of K+", "potassium 20 mmol", "recipe says no potassium"],
    ["Na 154 mmol", "sodium 154 mmol", "recipe says 15.4 mmol"],
  ]);
  areSilent(bag, [
    "Mg2+ 16 mmol",
    "Mg²⁺ 16.2 mmol",
    "Na+ 15.4 mmol",
    "If K+ below 3.5 mmol/L tell the doctor",
    "Serum K+ 4.5 mmol/L",
    "Check Mg 2 to 4 mmol/L",
  ]);

  it("their charge is no sum", () => {
    const line = (said: string) =>
      example(["  preparation bag {", `  label-text {\n    line "${said}"\n  }\n\n  preparation bag {`]);
    const signs = (said: string) => findingsOf(line(said)).filter((f) => f.name === "sign-for-word");
    for (const said of ["Mg2+ 16 mmol", "Na+ 15 mmol", "Mg++ 16 mmol"]) expect(signs(said)).toEqual([]);
    expect(signs("about 4 mL + 2 mL")).toHaveLength(1);
  });
});
