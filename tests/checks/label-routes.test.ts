/**
 * Ways in by the other names and short forms that wards print, names alone in a line, antidotes beside the preparation, and what hospitals
 * print on every label. The recipes are those of the sample library; what a careful colleague would say of each is common practice.
 */
import { describe } from "vitest";
import { areSilent, areTold } from "./sayings.ts";

const bag = "magnesium-4g";
const epidural = "epidural-levobupivacaine-fentanyl";

describe("a way in by another name", () => {
  areTold(bag, [
    "i.m. only",
    "im use",
    "sc use",
    "Subcut only",
    "Sub-cutaneous",
    ["Intra-thecal use", "Intra-thecal"],
    "Intra-muscular",
    "Per os",
    "By mouth",
    "PO",
    "NG",
    ["Via nasogastric tube", "nasogastric"],
    "Via PEG",
    "For external use only",
    "For dialysis",
    "Haemofiltration fluid",
    "Irrigation solution",
    "Bladder washout",
    "Wound infiltration",
    "Nerve block",
    "Nebulise",
    ["title: Magnesium sulfate 4 g nebuliser solution in sodium chloride 0.9 % 100 mL", "nebuliser solution"],
    ["Line lock only", "Line lock", "order says infuse-over 4 h"],
    ["Stat dose, rapid IV", "rapid IV"],
  ]);
  areTold(epidural, [
    "i.v. use",
    "iv use",
    "IV pump",
    "IV PCA",
    ["Give into a vein", "into a vein"],
    ["Connect by a central line", "by a central line"],
    ["Spinal", "Spinal"],
  ]);
  areSilent(bag, [
    "for it use only",
    "Via a central line or a peripheral line",
    "Give during dialysis",
    "Infiltration: stop the infusion",
    "Luer lock",
    "Eye protection when it is spilt",
    "Not for oral use",
  ]);
  areSilent(epidural, ["Keep a peripheral line in place", "Through the epidural catheter", "PCEA pump only"]);
});

describe("a name alone, in another spelling, or beside a figure in words", () => {
  areTold("noradrenaline-8mg-syringe", [
    ["Adrenaline", "adrenaline", "order says noradrenaline"],
    ["Adrenaline infusion", "adrenaline"],
  ]);
  areTold("insulin-100-units", [
    ["Insulin glargine", "insulin glargine", "order says insulin-soluble"],
    ["Ten units per millilitre", "Ten units per millilitre"],
  ]);
  areTold(bag, [
    ["Magnesium sulphate 8 g", "8 g"],
    ["Magnesium sulphate four hundred milligrams", "four hundred milligrams"],
    ["title: Magnesium sulphate 400 mg in sodium chloride 0.9 % 100 mL", "400 mg"],
  ]);
  areTold("vancomycin-loading", [
    ["Maximum 3 g", "Maximum 3 g", "order says maximum dose 2 g"],
    ["Thirty milligrams per kilogram", "Thirty milligrams per kilogram", "order says 25 mg/kg"],
  ]);
  areSilent("noradrenaline-8mg-syringe", ["Noradrenaline infusion", "Noradrenaline"]);
  areSilent("insulin-100-units", ["Soluble insulin", "One unit per millilitre"]);
  areSilent(bag, ["Magnesium sulphate 4 g", "title: Magnesium sulphate 4 g in sodium chloride 0.9 % 100 mL"]);
  areSilent("vancomycin-loading", ["Maximum 2 g", "Maximum 6 g a day", "Twenty-five milligrams per kilogram"]);
});

describe("what is printed beside", () => {
  areSilent(bag, [
    "Antidote: calcium gluconate 1 g IV over 3 min",
    "Antidote at hand: calcium gluconate 10 %, 10 mL slow IV push",
    "Complete infusion within 24 h of preparation",
    "For intravenous infusion via a volumetric pump",
    "Prepared aseptically by the pharmacy of the Kestrel Quay Infirmary",
    "Monitor respiratory rate and knee jerk every hour",
    "Stop if respiratory rate is below 12 per minute",
    "Total volume 108 mL including 8 mL additive",
    "Contains 8 mL of magnesium sulfate 50 %",
    "Use by ____ (date) ____ (time)",
    "Loading dose: 4 g over 20 min, then 1 g/h",
    "Do not infuse with calcium, phosphate or bicarbonate",
    "Flush before and after with sodium chloride 0.9 % 10 mL",
    "Storage: room temperature, not above 25 °C",
    "Hang within 24 h of preparation",
    "note: Draw 8 mL with a 10 mL syringe",
    "note: The vial may be kept in the refrigerator for 28 days once opened",
    "note: One vial holds five grams, so one gram is left",
    "note: Inject into the bag in one go",
  ]);
  areSilent(epidural, [
    "FOR EPIDURAL INFUSION ONLY. NOT FOR INTRAVENOUS USE",
    "Background 8 to 12 mL/h, bolus 5 mL, lockout 20 min",
    "Naloxone 400 mcg IV at the bedside",
    "Lipid emulsion 20 % at hand: 1.5 mL/kg IV bolus",
    "Fatal if given intravenously",
  ]);
  areSilent("noradrenaline-8mg-syringe", ["Titrate to blood pressure, 1 to 20 mL/h", "Central line only; never bolus"]);
  areSilent("ceftriaxone-500mg", [
    "10 days at 2 to 8 °C, 2 days at 25 °C",
    "Store in a refrigerator. Use within 2 days once at room temperature",
  ]);
  areSilent("amiodarone-900mg", ["In glucose only, never in saline", "Incompatible with sodium chloride 0.9 %"]);
  areSilent("calcium-1g-syringe", ["Slow IV over 10 minutes", "Calcium gluconate 10 %, 10 mL, made up to 50 mL"]);
});
