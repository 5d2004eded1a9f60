/** The order of the example by body weight, for checks that look at a range. */
import { example } from "../example.ts";

/** Finely graduated: each rounded dose can be drawn with it. */
export const fineSyringe = `
device fine-syringe {
  kind        syringe
  capacity    10 mL
  graduation  0.01 mL
}
`;

/** The rounding is out of step with the dose: each tenth of a kilogram is rounded by another amount, and is a case of its own. */
export const roundedOutOfStep = "53 mg/kg per bag\n    round           dose to nearest 5 mg";

/** @param range what stands behind `weight` */
export const perWeight = (
  range: string,
  { syringe = "syringe-10mL", dose = "50 mg/kg per bag", more = "" } = {},
): string =>
  `${example(
    ["    dose            4 g per bag\n", `    weight          ${range}\n    dose            ${dose}\n`],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
    ["    syringe      syringe-10mL", `    syringe      ${syringe}`],
    ["    concentration  37.04 mg/mL\n", ""],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate by weight in"],
    ["  tolerance      dose 5 %", "  tolerance      dose 20 %"],
  )}${more}`;
