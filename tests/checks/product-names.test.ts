/**
 * Products and names in titles and on labels, as pharmacies print them (common practice). The figures are those of the sample recipes:
 * vancomycin 1.5 g from vials of 500 mg, midazolam 50 mg in 100 mL from 5 mg/mL, insulin 100 units from 100 units/mL, calcium gluconate 10 mL of
 * 100 mg/mL with 2.3 mmol of calcium, noradrenaline 8 mg from ampoules of 4 mg. That adrenaline and noradrenaline, bupivacaine and
 * levobupivacaine are different medicines is general knowledge (from memory: such pairs stand on published lists of confused names).
 */
import { describe, expect, it } from "vitest";
import { label, title } from "./printed-on-samples.ts";

const [calcium, insulin, midazolam] = ["calcium-2.3mmol", "insulin-100-units", "midazolam-50mg"];
const [noradrenaline, vancomycin] = ["noradrenaline-8mg-syringe", "vancomycin-1.5g"];
const epidural = "epidural-levobupivacaine-fentanyl";

describe("what a product holds", () => {
  it.each([
    [vancomycin, "Vancomycin 1.5 g (3 vials of 500 mg) in sodium chloride 0.9 % 500 mL"],
    [vancomycin, "Vancomycin 1.5 g from 3 x 500 mg vials in sodium chloride 0.9 % 500 mL"],
    [noradrenaline, "Noradrenaline 8 mg (2 ampoules of 4 mg) in glucose 5 %, 50 mL"],
    [calcium, "Calcium gluconate 10 % 10 mL (calcium 2.3 mmol) in glucose 5 % 100 mL"],
    ["potassium-20mmol", "Potassium chloride 20 mmol (1.5 g) in glucose 5 % 1 L"],
    ["magnesium-4g", "Magnesium sulfate 4 g, 37 mg/mL, 108 mL"],
    // The bag by its nominal volume.
    ["magnesium-4g", "Magnesium sulfate 37 mg/mL, 100 mL"],
  ])("%s: the title %s is right", (recipe, words) => {
    expect(title(recipe, words)).toEqual([]);
  });

  it.each([
    [vancomycin, "Vancomycin 1.5 g (3 vials of 1 g) in sodium chloride 0.9 % 500 mL"],
    [vancomycin, "Vancomycin 500 mg in sodium chloride 0.9 % 500 mL"],
    [vancomycin, "Vancomycin 500 mg, from 3 vials, in sodium chloride 0.9 % 500 mL"],
    [calcium, "Calcium gluconate 10 % 10 mL (calcium 6.8 mmol) in glucose 5 % 100 mL"],
    [calcium, "Calcium gluconate 10 % 20 mL (calcium 2.3 mmol) in glucose 5 % 100 mL"],
    ["magnesium-4g", "Magnesium sulfate 4 g in sodium chloride 0.9 % 108 mL"],
    ["magnesium-4g", "Magnesium sulfate 37 mg/mL, 250 mL"],
  ])("%s: the title %s is told once", (recipe, words) => {
    expect(title(recipe, words)).toHaveLength(1);
  });

  it.each([
    [insulin, "Contains insulin 100 units/mL 1 mL"],
    [calcium, "Calcium gluconate 10 % 10 mL = calcium 2.3 mmol"],
    [calcium, "Calcium gluconate 10 % (100 mg/mL) 10 mL added"],
    [midazolam, "Prepared from midazolam 5 mg/mL ampoules"],
    ["magnesium-4g", "Magnesium sulfate 50 % 8 mL"],
    ["magnesium-4g", "Magnesium sulfate 37 mg/mL, 108 mL"],
    ["magnesium-4g", "Magnesium sulfate 37 mg/mL, 100 mL"],
    ["magnesium-8mmol", "Check reflexes every 15 minutes; antidote calcium gluconate 1 g in 10 mL at hand"],
    ["phosphate-calcium", "Calcium 2.3 mmol/L limit"],
  ])("%s: the line %s is right", (recipe, words) => {
    expect(label(recipe, words)).toEqual([]);
  });

  it.each([
    [insulin, "Contains insulin 100 units/mL 2 mL"],
    [calcium, "Calcium gluconate 10 % 10 mL = calcium 6.8 mmol"],
    [calcium, "Calcium gluconate 10 % 20 mL"],
    [calcium, "Calcium gluconate 20 % 10 mL"],
    [midazolam, "Prepared from midazolam 1 mg/mL ampoules"],
    ["magnesium-4g", "Magnesium sulfate 50 % 4 mL"],
    ["magnesium-8mmol", "Magnesium sulfate 8 mmol in 10 mL"],
  ])("%s: the line %s is told once", (recipe, words) => {
    expect(label(recipe, words)).toHaveLength(1);
  });
});

describe("a name that is the end of the ordered drug's", () => {
  it.each([
    [noradrenaline, "Adrenaline 8 mg in 50 mL", "adrenaline; the order says noradrenaline"],
    [epidural, "Bupivacaine 0.1 % with fentanyl 2 mcg/mL", "bupivacaine; the order says levobupivacaine"],
  ])("%s: %s", (recipe, words, said) => {
    expect(label(recipe, words)).toEqual([said]);
    expect(title(recipe, words.replace("in 50 mL", "in glucose 5 %, 50 mL"))).toContain(said);
  });

  it.each(["Not adrenaline 8 mg", "Never run with adrenaline", "Noradrenaline (as base) 8 mg in 50 mL"])(
    "%s is no such name",
    (words) => {
      expect(label(noradrenaline, words)).toEqual([]);
    },
  );
});
