/**
 * Orders as drug charts state them, which an order of the language says otherwise: each is told once, at its place, with what to write
 * instead, and is never read as another dose. Forms: common practice of drug charts and of chemotherapy prescribing, from memory;
 * the carboplatin formula: Calvert AH et al., J Clin Oncol 1989;7:1748-56, as printed on the calculators named in practice/problems.json.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import type { Finding } from "../../shared/finding.ts";
import { findingsOf } from "../checks/findings-of.ts";

const dose = "    dose            4 g per bag";
const time = "    infuse-over     4 h";
const step = "draw 4 g from mag into syringe";

const inPlace = {
  dose: (text: string) => example([dose, `    dose  ${text}`]),
  order: (text: string) => example([dose, `${dose}\n    ${text}`]),
  time: (text: string) => example([time, `    ${text}`]),
  step: (text: string) => example([step, text]),
  push: (text: string) => example(["inject syringe into bag", text]),
  preparation: (text: string) => example(["    concentration   37.04 mg/mL".replace("   37", "  37"), `    ${text}`]),
} as const;

type Place = keyof typeof inPlace;

const exposure = "Write the target with its figure in front, such as `5 AUC`";

/** Place, text, finding, part of its message, and the one fix where there is one. */
const told: readonly [Place, string, string, string, string?][] = [
  // Without the drug's own formula and the clearance an exposure is no dose.
  ["dose", "AUC 5 per bag", "unit-before-number", "Write `5 AUC`", "Write 5 AUC"],
  ["dose", "5 AUC per bag", "auc-formula-not-declared", "Write the dose worked out"],
  ["dose", "200 MBq per bag", "customary-unit", "outside the language"],
  ["dose", "5 mCi per bag", "customary-unit", "outside the language"],
  ["dose", "5 mg/mL.min per bag", "customary-unit", exposure],
  ["dose", "5 mg*min/mL per bag", "customary-unit", exposure],
  ["dose", "5 mg·min/mL per bag", "customary-unit", exposure],
  ["dose", "4 g", "fact-not-understood", "`per` with the name of the container"],
  ["dose", "4 g daily", "fact-not-understood", "How often it is given"],
  ["dose", "1 g every 6 h", "fact-not-understood", "How often it is given"],
  ["dose", "1 g q6h", "fact-not-understood", "How often it is given"],
  ["dose", "4 g per bag daily", "fact-not-understood", "How often it is given"],
  ["dose", "4 g per bag per day", "fact-not-understood", "per one thing"],
  ["dose", "4 g to 6 g per bag", "fact-not-understood", "An order has one dose"],
  ["dose", "50 mg/kg (max 4 g) per bag", "fact-not-understood", "`maximum dose 4 g`"],
  ["dose", "50 mg/kg up to 4 g per bag", "fact-not-understood", "`maximum dose 4 g`"],
  ["dose", "4 g over 4 h", "fact-not-understood", "`infuse-over`"],
  ["dose", "4 g in 100 mL", "fact-not-understood", "`diluent-volume`"],
  ["dose", "2 g/m2 for 4 days per bag", "fact-not-understood", "`per 24 h`"],
  ["dose", "4 g each bag", "fact-not-understood", "Write `per`"],
  ["dose", "2 x 2 g per bag", "fact-not-understood", "the whole amount"],
  ["dose", "4 g (16 mmol) per bag", "fact-not-understood", "One figure orders the dose"],
  ["dose", "4 g = 16 mmol per bag", "fact-not-understood", "One figure orders the dose"],
  ["dose", "50 mg/kg IBW per bag", "fact-not-understood", "the weight that the dose goes by"],
  ["dose", "75 % of 4 g per bag", "fact-not-understood", "Write the amount of drug"],
  ["dose", "8 mL of 50 % per bag", "fact-not-understood", "Write the amount of drug"],
  ["dose", "1 ampoule per bag", "unknown-unit", "Write the amount that is in it"],
  ["dose", "about 4 g per bag", "fact-not-understood", "A dose is one figure"],
  ["dose", "≤4 g per bag", "fact-not-understood", "`maximum dose`"],
  ["dose", "four g per bag", "fact-not-understood", "in figures"],
  ["dose", "4 g magnesium-sulfate per bag", "fact-not-understood", "named in the line `drug`"],
  ["dose", "50 mg per kg per bag", "fact-not-understood", "A unit is one word", "Write 50 mg/kg"],
  // To name the container in place of the unit would have ordered 4 g for everybody.
  ["dose", "4 g per kg", "ordered-container-not-finished", "which is a unit", "Write 4 g/kg per bag"],
  ["dose", "4 g per m2", "ordered-container-not-finished", "which is a unit", "Write 4 g/m2 per bag"],
  ["dose", "4 g/day per bag", "amount-not-computable", "`4 g per 24 h`"],
  ["dose", "4 g/h per bag", "amount-not-computable", "Write the amount that the container holds"],
  ["order", "weight 40 kg - 80 kg", "fact-not-understood", "Write both ends"],
  ["order", "weight up to 80 kg", "fact-not-understood", "Write both ends"],
  ["order", "weight ≥ 40 kg", "fact-not-understood", "Write both ends"],
  ["time", "infuse-over 3 h to 4 h", "fact-not-understood", "Write the one time"],
  ["time", "infuse-over 4 h 30 min", "fact-not-understood", "A time has one unit", "Write 4.5 h"],
  ["time", "infuse-over stat", "fact-not-understood", "`use bolus`"],
  ["time", "infuse-at KVO", "fact-not-understood", "the rate in figures"],
  ["time", "infuse-at 50 % maintenance", "fact-not-understood", "A share of maintenance"],
  ["time", "infuse-at 27 mL/h to 30 mL/h", "fact-not-understood", "`use titrated`"],
  ["time", "infuse-at 15 mg/kg/h", "per-kg-without-weight", "Add `weight`"],
  ["time", "infuse-at 500 mg/m2/day", "per-kg-without-weight", "Add `body-surface`"],
  ["time", "infuse-at 20 drops/mL", "wrong-dimension", "takes a rate"],
  ["time", "infuse-at 9 drops/min", "limit-not-compared", "`drop-factor`"],
  ["preparation", "concentration  4 g in 108 mL", "fact-not-understood", "in one mL", "Write 37.04 mg/mL"],
  ["order", "final-volume lumen", "fact-not-understood", "whether it fills the lumen is checked"],
  ["order", "use pca", "fact-not-understood", "`use titrated`"],
  ["preparation", "after-opening 24 h at refrigerator", "fact-not-understood", "write `store`"],
  ["push", "fill bag with syringe", "step-not-understood", "goes in by `inject`"],
  ["push", "fill bag with 8 mL using syringe", "step-not-understood", "from a container"],
  ["push", "fill bag to 100 mL with mag using syringe", "step-not-understood", "`make up`"],
  ["step", "draw 4 g from mag into syringe, needle", "step-not-understood", "make them one set"],
  ["step", "draw remaining from mag into syringe", "step-not-understood", "the `rest of dose`"],
  ["step", "draw final-volume from mag into syringe", "step-not-understood", "the `rest of dose`"],
  // A volume is of all that is in the container; a drug that is not in it was passed over.
  [
    "step",
    "draw 8 mL of potassium-chloride from mag into syringe",
    "amount-not-computable",
    "and not of potassium-chloride",
  ],
  ["step", "draw 8 mL of calcium from mag into syringe", "amount-not-computable", "and not of calcium"],
  ["step", "draw 8 mL as calcium from mag into syringe", "amount-not-computable", "and not of calcium"],
  ["step", "draw 4 g (= 8 mL) from mag into syringe", "unknown-unit", "mL)"],
];

/** Real orders that are taken as they stand, with the finding-free recipe beside them. */
const taken: readonly [Place, string][] = [
  ["dose", "50 mg/kg per bag\n    weight 80 kg"],
  ["dose", "60 mg/kg per bag\n    weight 80 kg\n    maximum dose 4 g"],
  ["dose", "2 g/m2 per bag\n    body-surface 2 m2"],
  ["dose", "2.5 g/m2 per bag\n    body-surface 2 m2\n    maximum dose 4 g"],
  ["dose", "16.23 mmol of magnesium per bag"],
  ["time", "infuse-at 12.5 mg/kg/h\n    weight 80 kg"],
  ["time", "infuse-at 200 mcg/kg/min\n    weight 80 kg"],
  ["time", "infuse-at 500 mg/m2/h\n    body-surface 1.8 m2"],
  ["time", "infuse-at 12 g/m2/day\n    body-surface 1.8 m2"],
  ["time", "infuse-at 4 mmol/h"],
  ["time", "infuse-at 0.5 mL/kg/h\n    weight 54 kg"],
  ["step", "draw 8 mL of magnesium-sulfate from mag into syringe"],
];

const said = (findings: readonly Finding[]) => findings.map((f) => `${f.name}: ${f.message}`);

describe("orders of a drug chart", () => {
  it.each(told)("%s: %s is told as %s", (place, text, name, part, fix) => {
    const [finding, ...others] = findingsOf(inPlace[place](text));
    expect(said(others)).toEqual([]);
    expect(finding?.name).toBe(name);
    expect(finding?.message).toContain(part);
    if (fix) expect(finding?.fixes.map((f) => f.title)).toEqual([fix]);
  });

  it.each(taken)("%s: %s is taken", (place, text) => {
    expect(said(findingsOf(inPlace[place](text)))).toEqual([]);
  });
});
