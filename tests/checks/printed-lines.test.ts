/**
 * Titles and label lines on recipes of the sample library, as pharmacies print them (common practice), right and with one slip. The
 * strengths are those of the recipes: levobupivacaine 1 mg/mL with fentanyl 2 mcg/mL at 12 mL/h, noradrenaline 160 mcg/mL from ampoules of
 * 4 mL, midazolam 200 mcg/mL from a vial of 1 mg/mL, insulin 1 unit/mL over 20 h, digoxin 50 mcg/mL from 250 mcg/mL.
 */
import { describe, expect, it } from "vitest";
import { label, title } from "./printed-on-samples.ts";

const [epidural, noradrenaline, midazolam] = [
  "epidural-levobupivacaine-fentanyl",
  "noradrenaline-8mg-syringe",
  "midazolam-300mcg",
];

describe("titles", () => {
  it.each([
    [epidural, "Levobupivacaine 250 mg (50 mL of 5 mg/mL) and fentanyl 500 mcg (10 mL of 50 mcg/mL), epidural"],
    [epidural, "Levobupivacaine 50 mL of 0.5 % with fentanyl 500 mcg, epidural"],
    [noradrenaline, "Noradrenaline 8 mg (8 mL of 1 mg/mL) in glucose 5 %, syringe of 50 mL"],
    [midazolam, "Midazolam 300 mcg (1.5 mL of 200 mcg/mL)"],
    [midazolam, "Midazolam 300 mcg, syringe from 2 mL of 1 mg/mL made up to 10 mL"],
    ["insulin-100-units", "Soluble insulin 100 units (1 mL of 100 units/mL) in sodium chloride 0.9 % 100 mL"],
    ["ceftriaxone-1g-batch", "Ceftriaxone 1 g (10 mL of 100 mg/mL) in sodium chloride 0.9 % 50 mL, batch of 4 bags"],
    ["digoxin-40mcg", "Digoxin 0.8 mL of 50 mcg/mL"],
    ["propofol-500mg-syringe", "Propofol 50 mL of 10 mg/mL undiluted"],
  ])("%s: %s", (recipe, words) => {
    expect(title(recipe, words)).toEqual([]);
  });

  it.each([
    // The dose takes five ampoules of 10 mL.
    [
      epidural,
      "Levobupivacaine 250 mg (10 mL of 5 mg/mL) and fentanyl 500 mcg, epidural",
      "10 mL of 5 mg/mL; the order comes to 50 mL of 5 mg/mL",
    ],
    [
      epidural,
      "Levobupivacaine 250 mg and fentanyl 500 mcg (10 mL of 5 mcg/mL), epidural",
      "10 mL of 5 mcg/mL; the order comes to 10 mL of 50 mcg/mL",
    ],
    [noradrenaline, "Noradrenaline 8 mg (4 mL of 1 mg/mL)", "4 mL of 1 mg/mL; the order comes to 8 mL of 1 mg/mL"],
    [
      midazolam,
      "Midazolam 300 mcg (15 mL of 200 mcg/mL)",
      "15 mL of 200 mcg/mL; the order comes to 1.5 mL of 200 mcg/mL",
    ],
    ["digoxin-40mcg", "Digoxin 0.8 mL of 250 mcg/mL", "0.8 mL of 250 mcg/mL; the order comes to 0.16 mL of 250 mcg/mL"],
    ["propofol-500mg-syringe", "Propofol 50 mL of 20 mg/mL", "50 mL of 20 mg/mL; the order comes to 50 mL of 10 mg/mL"],
  ])("%s: %s is told", (recipe, words, message) => {
    expect(title(recipe, words)).toEqual([message]);
  });
});

describe("lines of the label", () => {
  it.each([
    [epidural, "Levobupivacaine 12 mg/h and fentanyl 24 mcg/h"],
    [epidural, "Fentanyl 24 mcg/h at 12 mL/h"],
    [epidural, "Bolus 5 mL (levobupivacaine 5 mg)"],
    [epidural, "1 mL contains levobupivacaine 1 mg and fentanyl 2 mcg"],
    [epidural, "Each mL contains levobupivacaine 1 mg and fentanyl 2 mcg"],
    [epidural, "Levobupivacaine 1 in 1,000"],
    [epidural, "Levobupivacaine 1 mg in 1 mL"],
    [noradrenaline, "Start at 2 mL/h (320 mcg/h), titrate to blood pressure"],
    [noradrenaline, "Each mL of the ampoule contains 1 mg"],
    [midazolam, "Dilution: 2 mL of 1 mg/mL to 10 mL"],
    [midazolam, "Bolus 300 mcg (1.5 mL)"],
    ["insulin-100-units", "1 unit in 1 mL"],
    ["vasopressin-100-units", "0.03 units/min (1.8 mL/h)"],
    ["potassium-20mmol", "Potassium 20 mmol in 1 L"],
  ])("%s: %s", (recipe, words) => {
    expect(label(recipe, words)).toEqual([]);
  });

  it.each([
    [epidural, "Levobupivacaine 120 mg/h", "120 mg/h; the order says 12 mg/h"],
    [epidural, "Fentanyl 240 mcg/h at 12 mL/h", "240 mcg/h at 12 mL/h; the recipe says 24 mcg/h at 12 mL/h"],
    [epidural, "Levobupivacaine 1 in 10,000", "1 in 10,000 (0.1 mg/mL); the recipe for levobupivacaine says 1 mg/mL"],
    // It would be right of the other drug.
    [epidural, "Fentanyl 1 mg in 1 mL", "1 mg in 1 mL; the recipe says 0.002 mg in 1 mL"],
    [
      epidural,
      "1 mL contains levobupivacaine 1 mg and fentanyl 20 mcg",
      "1 mL = 20 mcg; the recipe for fentanyl says 2 mcg/mL",
    ],
    [noradrenaline, "Each mL contains 1.6 mg", "1 mL = 1.6 mg; the recipe for noradrenaline says 0.16 mg/mL"],
    [
      noradrenaline,
      "Start at 2 mL/h (3.2 mg/h), titrate to blood pressure",
      "2 mL/h for 3.2 mg/h; the recipe says 2 mL/h for 0.32 mg/h",
    ],
    [midazolam, "Bolus 300 mcg (3 mL)", "300 mcg (3 mL); the recipe for midazolam says 200 mcg/mL"],
    ["insulin-100-units", "10 units in 1 mL", "10 units in 1 mL; the recipe says 1 unit in 1 mL"],
    [
      "vasopressin-100-units",
      "0.03 units/min (18 mL/h)",
      "0.03 units/min at 18 mL/h; the recipe says 0.3 units/min at 18 mL/h",
    ],
  ])("%s: %s is told once", (recipe, words, message) => {
    expect(label(recipe, words)).toEqual([message]);
  });
});
