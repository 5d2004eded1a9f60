/** The order of the example by body weight, for checks that look at a range. */
import { example } from "../example.ts";

/** Graduated so finely that a range of weights falls into more pieces than are judged. */
export const fineSyringe = `
device fine-syringe {
  kind        syringe
  capacity    10 mL
  graduation  0.01 mL
}
`;

/** @param range what stands behind `weight` */
export const perWeight = (range: string, syringe = "syringe-10mL", more = ""): string =>
  `${example(
    ["    dose            4 g per bag\n", `    weight          ${range}\n    dose            50 mg/kg per bag\n`],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
    ["    syringe      syringe-10mL", `    syringe      ${syringe}`],
    ["    concentration  37.04 mg/mL\n", ""],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate by weight in"],
    ["  tolerance      dose 5 %", "  tolerance      dose 20 %"],
  )}${more}`;
