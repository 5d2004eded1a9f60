import { inputRanges } from "../../bench/order.ts";
import type { Spot } from "../../model/slots.ts";
import { boxText } from "../../proof/range-text.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

const fineSyringe = `
device fine-syringe {
  kind        syringe
  capacity    10 mL
  graduation  0.01 mL
}
`;

const perWeight = (range: string, syringe: string) =>
  `${example(
    ["    dose            4 g per bag\n", `    weight          ${range}\n    dose            50 mg/kg per bag\n`],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
    ["    syringe      syringe-10mL", `    syringe      ${syringe}`],
    ["    concentration  37.04 mg/mL\n", ""],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate by weight in"],
    ["  tolerance      dose 5 %", "  tolerance      dose 20 %"],
  )}${fineSyringe}`;

export const rangeNotDecided = recipeCheck<{ at: Spot; where: string; reason: string }>({
  name: "range-not-decided",
  family: "structure",
  severity: "error",
  across: true,
  title: "A part of the order's range for which nothing could be decided",
  why: "Not proven is not safe: it is said, never passed over.",
  source: "common practice",
  bad: perWeight("20 kg to 80 kg in steps of 0.1 kg", "fine-syringe"),
  good: perWeight("50 kg to 60 kg in steps of 1 kg", "fine-syringe"),
  *find({ recipe, range }) {
    const [first] = inputRanges(recipe);
    if (!range || !first) return;
    const [undecided] = range.undecided;
    if (!undecided) return;
    const more = range.undecided.length - 1;
    const where = boxText(range.axes, undecided.box) + (more > 0 ? ` and ${more} more stretches` : "");
    yield { at: first, where, reason: undecided.reason };
  },
  say: ({ where, reason }) => ({
    text: `Not decided for ${where}: ${reason}. No check is known to hold there. State the range in steps, narrow it, or round the dose.`,
  }),
});
