import { happened } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { example } from "../example.ts";
import { isShort, slipsOf } from "../slips.ts";

export const tooFewContainers = recipeCheck({
  name: "too-few-containers",
  family: "volumes",
  severity: "error",
  title: "Fewer containers than the draw needs",
  why: "The draw cannot be done with what stands on the bench.",
  source: "common practice",
  rows: [],
  bad: example(
    ["    access          peripheral", "    access          central"],
    ["    dose            4 g per bag", "    dose            12 g per bag"],
    ["from 500 mg up to 10 g", "from 500 mg up to 20 g"],
    ["    mag          magnesium-ampoule", "    mag          2 x magnesium-ampoule"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 12 g from mag into syringe"],
    ["    syringe      syringe-10mL", "    syringe      syringe-30mL"],
    ["    concentration  37.04 mg/mL\n", ""],
    ["magnesium-4g {", "magnesium-12g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 12 g"],
    ["tolerance      dose 5 %", "tolerance      dose 20 %"],
    ["  strength   500 mg/mL", "  strength   500 mg/mL\n  one-filter-for  4  source guide"],
    ["    method          add-to-bag", "    method          add-to-bag"],
    ["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  additive-share up to 50 %"],
  ),
  good: example(),
  happening: "too-few-containers",
  find: ({ run }) =>
    happened(run, "too-few-containers")
      .filter((h) => !(slipsOf(run).follows(h.step) || (followsSlip(h.step, run) && !isShort(h.step, run))))
      // What a draw before took is what is lacking to the next one.
      .filter((h, k, all) => all.findIndex((other) => other.data.name === h.data.name) === k)
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ name, stated, needed }) => ({
    text: `The draw needs ${needed} of ${name}; materials states ${stated}. Write \`${needed} x\`, or leave the count out, and it is worked out.`,
  }),
});
