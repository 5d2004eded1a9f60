/**
 * Names of drugs on labels and in titles that are not the ordered drug's, in styles that hospitals print (common practice). Whether a word is a
 * name follows from the stems of the INN programme (World Health Organization, "The use of stems in the selection of International
 * Nonproprietary Names", 2018); the other names are general knowledge. Figures are those of the sample recipes.
 */
import { describe, expect, it } from "vitest";
import { label, namesInTitle, namesOnLabel, title } from "./printed-on-samples.ts";

const noradrenaline = "noradrenaline-8mg-syringe";
const epidural = "epidural-levobupivacaine-fentanyl";
const insulin = "insulin-100-units";

describe("a name that the library does not know, beside an amount", () => {
  it.each([
    [noradrenaline, "Epinephrine 8 mg", "8 mg beside epinephrine"],
    [noradrenaline, "DRUG: EPINEPHrine 8 mg", "beside epinephrine"],
    [noradrenaline, "Epinephrine: 8 mg in 50 mL", "beside epinephrine"],
    [noradrenaline, "Epinephrine, 8 mg, in glucose 5 %", "beside epinephrine"],
    [noradrenaline, "Contains 8 mg epinephrine in 50 mL", "beside epinephrine"],
    [noradrenaline, "Dobutamine (as hydrochloride) 8 mg", "beside dobutamine"],
    [noradrenaline, "Norepinephrine bitartrate 8 mg in 50 mL", "beside norepinephrine"],
    ["ceftriaxone-1g", "cefOTAXime 1 g/50 mL", "beside cefotaxime"],
    ["ceftriaxone-1g", "Ceftriaxone 1 g, lidocaine 1 %", "1 % beside lidocaine"],
    ["vancomycin-loading", "Teicoplanin 25 mg/kg", "25 mg/kg beside teicoplanin"],
    ["midazolam-50mg", "Midazolam 50 mg + ketorolac 50 mg in 100 mL", "beside ketorolac"],
    ["oxytocin-10-units", "Carbetocin 10 units in 1 L", "beside carbetocin"],
    [epidural, "Levobupivacaine 250 mg and morphine 500 mcg in 250 mL", "beside morphine"],
    ["magnesium-4g", "Manganese sulfate 4 g in 100 mL", "beside manganese sulfate"],
    ["potassium-magnesium", "Contains: potassium chloride 20 mmol, zinc sulfate 2 g", "beside zinc sulfate"],
    [insulin, "Insulin glargine 100 units in 100 mL", "beside insulin glargine"],
    [insulin, "Heparin 100 units in 100 mL", "beside heparin"],
  ])("%s: the line %s", (recipe, words, said) => {
    expect(namesOnLabel(recipe, words)).toEqual([expect.stringContaining(said)]);
    expect(label(recipe, words)).toEqual([]);
  });

  it("stands in a title beside the ordered drug", () => {
    const words = "Levobupivacaine 250 mg and sufentanil 500 mcg in sodium chloride 0.9 % 250 mL, epidural";
    expect(namesInTitle(epidural, words)).toEqual([expect.stringContaining("500 mcg beside sufentanil")]);
    expect(title(epidural, words)).toEqual([]);
  });

  it("is told with its amount where that is another than the ordered one", () => {
    const words = "Midazolam 50 mg and hydromorphone 5 mg in sodium chloride 0.9 % 100 mL";
    expect(title("midazolam-50mg", words)).toEqual(["5 mg of hydromorphone; the order says 50 mg"]);
    expect(namesInTitle("midazolam-50mg", words)).toEqual([]);
  });
});

describe("no such name", () => {
  it.each([
    [noradrenaline, "Noradrenaline (norepinephrine) 8 mg in 50 mL"],
    [noradrenaline, "Norepinephrine (noradrenaline) 8 mg in 50 mL"],
    [noradrenaline, "Noradrenaline/norepinephrine 8 mg in 50 mL"],
    [noradrenaline, "Noradrenaline 8 mg (norepinephrine 8 mg) in 50 mL"],
    [noradrenaline, "Infusion 8 mg"],
    [noradrenaline, "Baseline 8 mg"],
    [noradrenaline, "Routine 8 mg"],
    [noradrenaline, "Enthaltene Dosis 8 mg"],
    [noradrenaline, "dose certaine 8 mg"],
    [noradrenaline, "Premedication: chlorphenamine 10 mg"],
    [noradrenaline, "Extravasation: phentolamine 5 mg at hand"],
    [noradrenaline, "Give after hydrocortisone 100 mg"],
    [insulin, "Hypoglycaemia: glucagon 1 mg"],
    ["ceftriaxone-2g", "Protocol: ceftriaxone 2 g and vancomycin 1 g"],
    ["magnesium-4g", "Loading 4 g"],
    ["magnesium-4g", "Machine 4 g"],
    ["magnesium-4g", "Medicine 4 g"],
    ["magnesium-4g", "Serum creatinine 120 micromol/L"],
    ["ceftriaxone-1g", "Allergy: penicillin. Ceftriaxone 1 g"],
    ["ceftriaxone-1g", "Ceftriaxone sodium 1 g"],
    ["vasopressin-100-units", "Argipressin (vasopressin) 100 units in 100 mL"],
    ["oxytocin-40-units", "In compound sodium lactate: sodium 130 mmol/L, calcium 1.5 mmol/L"],
    [insulin, "Insulin human 100 units in 100 mL"],
    ["digoxin-40mcg", "Contains ethanol 10 % and propylene glycol 40 %"],
  ])("%s: the line %s", (recipe, words) => {
    expect(namesOnLabel(recipe, words)).toEqual([]);
  });
});
