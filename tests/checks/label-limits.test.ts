/**
 * Bounds of time and rate that titles, label lines and notes set, laid against the order and the monograph. The recipes are those of the
 * sample library: magnesium sulfate 4 g in 108 mL over 4 h, which is 27 mL/h and 1 g/h; vancomycin 1 g over 2 h, which its monograph limits
 * to 10 mg/min (100 min). That a bound should be the order's own is common practice.
 */
import { describe } from "vitest";
import { areSilent, areTold } from "./sayings.ts";

const bag = "magnesium-4g";
const monograph = "monograph of vancomycin says rate up to 10 mg/min";

describe("a bound that the order does not keep", () => {
  areTold(bag, [
    ["Give over at least 6 hours", "over at least 6 hours", "order says infuse-over 4 h"],
    ["Give over not less than 6 hours", "over not less than 6 hours"],
    ["Give over 6 h or longer", "over 6 h or longer"],
    ["Give over no more than 2 hours", "over no more than 2 hours"],
    ["Minimum infusion time: 6 h", "Minimum infusion time: 6 h"],
    ["Give over 5 to 6 hours", "over 5 to 6 hours"],
    ["Give over 5 h to 6 h", "over 5 h to 6 h"],
    ["Do not exceed 0.5 g/h", "Do not exceed 0.5 g/h", "order says 1 g/h"],
    ["Do not give faster than 20 mL/h", "Do not give faster than 20 mL/h", "order says 27 mL/h"],
    ["Maximum rate: 20 mL/h", "Maximum rate: 20 mL/h"],
    ["Max 100 mg/h", "Max 100 mg/h", "order says 1,000 mg/h"],
    ["20 mL/h maximum", "20 mL/h maximum"],
    ["note: Do not exceed 0.5 g/h", "Do not exceed 0.5 g/h"],
    ["note: Give over at least six hours", "over at least six hours"],
  ]);
  areTold("potassium-20mmol", [["Do not exceed 1 mmol/h", "Do not exceed 1 mmol/h"]]);
  areTold("vancomycin-loading", [["Infuse over at least 5 h", "over at least 5 h"]]);
});

describe("a bound that allows more than the monograph", () => {
  areTold("vancomycin-1g", [
    ["Infuse over at least 30 minutes", "over at least 30 minutes (33.33 mg/min)", monograph],
    ["Infuse over at least 60 minutes", "over at least 60 minutes (16.67 mg/min)", monograph],
    ["Infuse over 30 to 120 minutes", "over 30 to 120 minutes (33.33 mg/min)", monograph],
    ["Do not exceed 20 mg/min", "Do not exceed 20 mg/min", monograph],
    ["Maximum rate 20 mg/min", "Maximum rate 20 mg/min", monograph],
    ["Never faster than 1.2 g/h", "Never faster than 1.2 g/h", monograph],
  ]);
  areTold("potassium-20mmol", [["Max 40 mmol/h", "Max 40 mmol/h", "monograph of potassium-chloride says rate up to "]]);
});

describe("a bound that holds", () => {
  areSilent(bag, [
    "Give over at least 2 hours",
    "Give over at least 4 hours",
    "Give over 4 h or longer",
    "Give over 2 h to 6 h",
    "Give over 2-4 h",
    "Give over no more than 6 hours",
    "Not faster than over 2 h",
    "Do not exceed 1 g/h",
    "Do not exceed 150 mL/h",
    "Do not give faster than 27 mL/h",
    "Maximum rate 30 mL/h",
    "Run at up to 30 mL/h",
    "Max 1 g/h",
    "Maximum dose 40 g",
    "Wait at least 30 min before giving",
    "Check the pressure in at least 5 min",
    "Do not give in less than 4 h",
    "Stop if above 20 mL/h",
    "Bolus no faster than 1 mL/min",
    "note: Check the knee jerk at least every 2 h",
  ]);
  areSilent("vancomycin-1g", ["Infuse over at least 100 minutes", "Do not exceed 10 mg/min", "Not above 600 mg/h"]);
  areSilent("vancomycin-loading", ["Infuse over at least 4 h", "Infuse no faster than 10 mg/min"]);
  areSilent("noradrenaline-8mg-syringe", ["Start at 2 mL/h, max 20 mL/h"]);
});
