/**
 * Names of drugs as wards shorten them (common practice, from memory). The beginning of the ordered drug's name is its name, and its figures are
 * judged; another drug's short name is told as that drug. A short name that may be either names nothing in a title.
 */
import { describe, expect, it } from "vitest";
import { allOfTitle, sayingTold } from "./printed-on-samples.ts";
import { areSilent, areTold } from "./sayings.ts";

const names = ["title-without-drug", "drug-name-not-known", "title-contradicts-order", "label-text-contradicts-order"];
const told = (recipe: string, saying: string) => sayingTold(recipe, saying, (name) => names.includes(name));

describe("the ordered drug's own", () => {
  it.each([
    ["magnesium-4g", "title: Mag sulf 4 g in sodium chloride 0.9 % 100 mL"],
    ["magnesium-4g", "title: Mg sulf 4 g in sodium chloride 0.9 % 100 mL"],
    ["magnesium-4g", "title: Mag sulfate 4 g in NaCl 0.9 % 100 mL"],
    ["magnesium-4g", "Mag 4 g"],
    ["noradrenaline-8mg-syringe", "title: Norad 8 mg in glucose 5 %, syringe of 50 mL"],
    ["noradrenaline-8mg-syringe", "Norad 8 mg"],
    ["noradrenaline-8mg-syringe", "Norad 160 mcg/mL"],
    ["vancomycin-1g", "title: Vanc 1 g in sodium chloride 0.9 % 250 mL"],
    ["vancomycin-1g", "Vanco 1 g"],
    ["ceftriaxone-1g", "title: Ceftriax 1 g in sodium chloride 0.9 % 50 mL"],
    ["dexmedetomidine-200mcg", "Dex 200 mcg"],
    ["dexmedetomidine-200mcg", "title: Dexmed 200 mcg in sodium chloride 0.9 % 50 mL"],
    [
      "epidural-levobupivacaine-fentanyl",
      "title: Levobupi 250 mg and fent 500 mcg in sodium chloride 0.9 % 250 mL, epidural",
    ],
    ["phenylephrine-10mg-100mL", "title: Phenyl 10 mg in sodium chloride 0.9 % 100 mL"],
    ["midazolam-50mg", "title: Midaz 50 mg in sodium chloride 0.9 % 100 mL"],
    ["potassium-20mmol", "title: KCl 20 mmol in glucose 5 % 1 L"],
    ["potassium-20mmol", "Pot chlor 20 mmol"],
    ["insulin-100-units", "Ins 100 units"],
  ])("%s: %s is in order", (recipe, saying) => expect(told(recipe, saying)).toEqual([]));

  areTold("magnesium-4g", [
    ["title: Mag sulf 8 g in sodium chloride 0.9 % 100 mL", "8 g"],
    ["Mag sulf 8 g", "8 g"],
    ["In NaCl 0.45 %", "sodium chloride 0.45 %"],
  ]);
  areTold("noradrenaline-8mg-syringe", [
    ["Norad 4 mg", "4 mg"],
    ["Norad 160 mg/mL", "160 mg/mL"],
  ]);
  areTold("vancomycin-1g", [
    ["Vanc 500 mg", "500 mg"],
    ["title: Vanc 2 g in sodium chloride 0.9 % 250 mL", "2 g"],
  ]);
  areTold("potassium-20mmol", [
    ["KCl 40 mmol", "40 mmol"],
    ["title: KCl 40 mmol in glucose 5 % 1 L", "40 mmol"],
  ]);
  areTold("dexmedetomidine-200mcg", [["Dex 20 mcg", "20 mcg"]]);
  areTold("epidural-levobupivacaine-fentanyl", [["Fent 5 mg", "5 mg"]]);
  areTold("aminophylline-250mg", [["Aminophyl 25 mg", "25 mg"]]);
});

describe("another drug's", () => {
  areTold("magnesium-4g", [
    ["Mag chlor 4 g", "magnesium chloride"],
    ["Pot chlor 20 mmol", "potassium-chloride"],
    ["Ca gluc 1 g", "calcium-gluconate"],
    ["KCl 4 g", "potassium-chloride"],
    ["Vanc 4 g", "vancomycin"],
    ["Norad 4 mg", "noradrenaline"],
  ]);
  areTold("noradrenaline-8mg-syringe", [
    ["Adren 8 mg", "adrenaline"],
    ["Vaso 8 mg", "vasopressin"],
    ["title: Adren 8 mg in glucose 5 %, syringe of 50 mL", "adrenaline"],
  ]);
  areTold("epidural-levobupivacaine-fentanyl", [["Bupi 250 mg", "bupivacaine"]]);
  areTold("midazolam-50mg", [["Diaz 50 mg", "diazepam"]]);
  it.each([
    ["noradrenaline-8mg-syringe", "Epi 8 mg", "epinephrine"],
    ["vancomycin-1g", "Teic 1 g", "teicoplanin"],
    ["vancomycin-1g", "Gent 1 g", "gentamicin"],
    ["ceftriaxone-1g", "Ceftaz 1 g", "ceftazidime"],
    ["dexmedetomidine-200mcg", "Dexa 8 mg", "dexamethasone"],
    ["phenylephrine-10mg-100mL", "Pheny 10 mg", "phenytoin"],
    ["insulin-100-units", "Hep 100 units", "heparin"],
    ["epidural-levobupivacaine-fentanyl", "Morph 500 mcg", "morphine"],
  ])("%s: %s is told as a name of %s", (recipe, saying, name) => {
    expect(told(recipe, saying)).toEqual([expect.stringContaining(`beside ${name}; the order is for`)]);
  });
});

it("names nothing in a title where it may be either", () => {
  const [found, ...more] = allOfTitle("dexmedetomidine-200mcg", "Dex 200 mcg in sodium chloride 0.9 % 50 mL");
  expect(found).toContain("does not name dexmedetomidine");
  expect(more).toEqual([]);
});

describe("words that only begin like a name", () => {
  areSilent("magnesium-4g", ["Total 4 g", "Loading 4 g", "Plan: 4 g", "Given 4 g", "Prop the bag up", "Step 4"]);
  areSilent("aminophylline-250mg", ["Amino 250 mg", "Contains amino acid 4 g"]);
});
