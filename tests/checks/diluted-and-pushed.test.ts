/**
 * `Diluted in` and `made up to` on what is given as it comes or has another volume, and a time that no push takes, beside what is right (common
 * practice, from memory). Sample recipes: propofol in a syringe of 50 mL as it comes, magnesium 4 g in 108 mL, digoxin 40 mcg pushed from a
 * dilution of 10 mL, vancomycin 25 mg/kg in 250 mL or 500 mL, diazepam 5 mg over 60 min.
 */
import { describe } from "vitest";
import { areSilent, areTold } from "./sayings.ts";

describe("what is not diluted", () => {
  areTold("propofol-500mg-syringe", [
    ["Diluted in glucose 5 %", "Diluted in", "order says no diluent"],
    ["Diluted with sodium chloride 0.9 %", "Diluted with"],
    ["title: Propofol 500 mg diluted in glucose 5 %", "diluted in"],
    ["title: Propofol 500 mg in glucose 5 %, syringe of 50 mL", "glucose", "recipe says no diluent"],
    ["title: Propofol 500 mg made up with sodium chloride 0.9 %, syringe of 50 mL", "made up with"],
  ]);
  areTold("lipid-10g-syringe", [["Diluted in glucose 5 %", "Diluted in"]]);
  areSilent("propofol-500mg-syringe", [
    "May be diluted in glucose 5 %",
    "Must be diluted before use",
    "Not diluted in glucose",
    "Dilute with glucose 5 % before use",
    "Do not dilute",
    "Undiluted",
    "Compatible with glucose 5 %",
    "title: Propofol 500 mg undiluted, syringe of 50 mL",
    "title: Propofol 500 mg made up to 50 mL",
  ]);
  areSilent("magnesium-4g", ["Diluted in sodium chloride 0.9 %"]);
});

describe("what it is made up to", () => {
  areTold("magnesium-4g", [
    ["Made up to 50 mL", "50 mL", "recipe says 100 mL and 108 mL"],
    ["Made up to 1 L with sodium chloride 0.9 %", "1 L"],
    ["Diluted to 500 mL", "500 mL"],
    ["57 mg/kg, made up to 500 mL", "500 mL"],
  ]);
  areTold("propofol-500mg-syringe", [["Made up to 100 mL", "100 mL"]]);
  areTold("midazolam-300mcg", [["Made up to 50 mL", "50 mL"]]);
  areTold("vancomycin-1g", [["15 mg/kg made up to 50 mL", "50 mL"]]);
  areSilent("magnesium-4g", [
    "Made up to 108 mL",
    "Made up to 100 mL",
    "Diluted to 108 mL",
    "Dilute to 500 mL before use",
    "Must be diluted to 500 mL",
    "Vial made up to 20 mL",
  ]);
  areSilent("midazolam-300mcg", ["Made up to 10 mL"]);
});

describe("how long a push takes", () => {
  areTold("digoxin-40mcg", [
    ["Give over at least 30 minutes", "over at least 30 minutes", "order says use bolus"],
    ["Give over 30 to 60 minutes", "over 30 to 60 minutes"],
    ["Give over a minimum of 1 h", "over a minimum of 1 h"],
    ["Run at 10 mL/h", "Run at 10 mL/h"],
    ["Pump rate 5 mL/h", "Pump rate 5 mL/h"],
    ["title: Digoxin 40 mcg over 30 minutes", "over 30 minutes"],
  ]);
  areSilent("digoxin-40mcg", [
    "Give over at least 5 minutes",
    "Give over 5 to 10 minutes",
    "Slow IV push over 5 minutes",
    "Never give over 30 minutes",
    "Flush line at 10 mL/h",
    "Inject via a line running at 10 mL/h",
  ]);
  areSilent("diazepam-5mg", ["Infuse over 1 h", "Give over at least 60 min"]);
});
