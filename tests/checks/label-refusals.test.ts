/**
 * What titles, label lines and notes forbid or claim, and fluids by the names that wards give them. The recipes are those of the sample library:
 * magnesium sulfate 4 g in sodium chloride 0.9 % by a peripheral vein, 2 g in glucose 5 %, digoxin for a newborn, insulin for an adult, which is
 * preserved with metacresol. Dextrose is glucose, D5W glucose 5 %, Hartmann's solution compound sodium lactate (common names, from memory).
 */
import { describe } from "vitest";
import { areSilent, areTold } from "./sayings.ts";

const saline = "magnesium-4g";
const glucose = "magnesium-2g";
const newborn = "digoxin-40mcg";
const adult = "insulin-100-units";
const epidural = "epidural-levobupivacaine-fentanyl";

describe("a line that forbids what is ordered", () => {
  areTold(saline, [
    ["Not for intravenous use", "Not for intravenous use", "order says route intravenous"],
    "NOT FOR IV USE",
    "Never give intravenously",
    "Do not give IV",
    ["Not for infusion", "Not for infusion", "order says infuse-over 4 h"],
    ["Not for peripheral use", "Not for peripheral use", "order says access peripheral"],
    "Do not give by a peripheral vein",
    "Do not mix with sodium chloride",
    ["Do not dilute in sodium chloride 0.9 %", "Do not dilute in sodium chloride 0.9 %", "order says diluent"],
    "Incompatible with sodium chloride 0.9 %",
    "Not in saline",
    ["note: Not for intravenous use", "Not for intravenous use"],
  ]);
  areTold("amiodarone-900mg", [["Not for central use", "Not for central use", "order says access central"]]);
  areTold(newborn, [
    ["Not for neonates", "Not for neonates", "order says population neonate"],
    "Do not use in newborns",
    "Contraindicated in neonates",
    "Not for bolus",
  ]);
  areTold(adult, ["Not for adults"]);
  areTold(epidural, ["Not for epidural use"]);
  areSilent(saline, [
    "Not for IV bolus use",
    "Not for IV push",
    "Not for IV push or IM use",
    "Never give intravenously undiluted",
    "Not for injection",
    "Not for a central line",
    "Not for children",
    "Not for re-use",
    "Do not use in pregnancy",
    "Do not dilute in glucose 5 %",
    "Incompatible with glucose",
    "Do not give with calcium",
    "No peripheral oedema",
  ]);
  areSilent("amiodarone-900mg", ["Avoid peripheral veins"]);
  areSilent(adult, ["Not for children"]);
  areSilent(epidural, ["Not for intrathecal use"]);
});

describe("another fluid", () => {
  areTold(saline, [
    ["title: Magnesium sulfate 4 g in glucose 100 mL", "glucose", "recipe says sodium-chloride-0.9"],
    ["title: Magnesium sulfate 4 g in D5W 100 mL", "D5W"],
    ["title: Magnesium sulfate 4 g in half-normal saline 100 mL", "half-normal saline"],
    ["title: Magnesium sulfate 4 g in Ringer's lactate 100 mL", "Ringer's lactate"],
    ["title: Magnesium sulfate 4 g in Hartmann's solution 100 mL", "Hartmann's"],
    ["In glucose", "glucose"],
    ["In D5W", "D5W"],
    ["Diluent: water for injection", "water for injection"],
    ["In Ringer's lactate", "Ringer's lactate"],
  ]);
  areTold(glucose, [
    ["title: Magnesium sulfate 2 g in saline 100 mL", "saline", "recipe says glucose-5"],
    ["title: Magnesium sulfate 2 g in normal saline 100 mL", "normal saline"],
    ["In D10W", "D10W"],
  ]);
  areTold("vancomycin-500mg", [["In glucose", "glucose"]]);
  areSilent(saline, [
    "title: Magnesium sulfate 4 g in normal saline 100 mL",
    "title: Magnesium sulfate 4 g in NS 100 mL",
    "Flush with glucose",
    "Do not store in water",
  ]);
  areSilent(glucose, [
    "title: Magnesium sulfate 2 g in D5W 100 mL",
    "title: Magnesium sulfate 2 g in glucose 100 mL",
    "In dextrose",
  ]);
  areSilent("oxytocin-10-units", [
    "In Ringer's lactate",
    "In Hartmann's solution",
    "title: Oxytocin 10 units in Hartmann's solution 1 L",
  ]);
  areSilent("vancomycin-500mg", ["In saline", "title: Vancomycin 500 mg in water for injections, then saline 100 mL"]);
});

describe("how it was made, and how strong and fast it is", () => {
  areTold(saline, [
    ["Undiluted", "undiluted", "order says diluent sodium-chloride-0.9"],
    ["title: Magnesium sulfate 4 g undiluted in a bag of 100 mL", "undiluted"],
    ["Magnesium 37 mg/mL", "37 mg/mL of magnesium", "recipe for magnesium-sulfate says 3.652 mg/mL"],
    ["title: Magnesium 37 mg/mL, bag of 100 mL", "37 mg/mL of magnesium"],
    ["100 to 150 mL/h", "100 to 150 mL/h", "order says 27 mL/h"],
    ["Rate 100-150 mL/h", "100-150 mL/h"],
    ["Give 2 g every hour", "2 g every hour", "order says 1 g/h"],
  ]);
  areTold("calcium-1g-syringe", [["Calcium 20 mg/mL", "20 mg/mL of calcium"]]);
  areTold(adult, [["Preservative free", "Preservative free", "product insulin-vial says preservative metacresol"]]);
  areSilent(saline, [
    "Never give undiluted",
    "From undiluted ampoules",
    "Magnesium (as sulfate) 37 mg/mL",
    "Magnesium 0.15 mmol/mL",
    "Rate 20 to 30 mL/h",
    "Titrate 100 to 150 mL/h",
    "Give 1 g every hour",
    "Check the pulse every hour",
  ]);
  areSilent("calcium-1g-syringe", [
    "Calcium 1.86 mg/mL",
    "Calcium 20 mg/mL (as gluconate)",
    "Calcium gluconate 20 mg/mL",
  ]);
  areSilent("propofol-500mg-syringe", ["Undiluted"]);
  areSilent(adult, ["Use preservative-free saline", "Not preservative-free"]);
  areSilent(epidural, ["Preservative-free"]);
});
