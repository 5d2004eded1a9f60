import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip, isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { runsDry, slipsOf } from "../slips.ts";

export const drawBeyondContent = recipeCheck({
  name: "draw-beyond-content",
  family: "volumes",
  severity: "error",
  title: "More drawn than the container holds",
  why: "The draw cannot be done; what is lacking is made up by guesswork.",
  source: "common practice",
  rows: [],
  bad: example(
    ["    dose            4 g per bag", "    dose            6 g per bag"],
    ["    mag          magnesium-ampoule", "    mag          1 x magnesium-ampoule"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 6 g from mag into syringe"],
    ["    syringe      syringe-10mL", "    syringe      syringe-20mL"],
    ["    concentration  37.04 mg/mL\n", ""],
    ["magnesium-4g {", "magnesium-6g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 6 g"],
    ["tolerance      dose 5 %", "tolerance      dose 20 %"],
  ),
  good: example(),
  happening: "draw-beyond-content",
  find: (context) => {
    const { run } = context;
    const sets = isTold("not-each-of", context) ? happened(run, "not-each-of") : [];
    return happened(run, "draw-beyond-content")
      .filter(({ step, data }) => !sets.some((h) => h.step === step && h.data.name === data.vessel.name))
      .filter(({ step }) => !followsSlip(step, run) || (!slipsOf(run).follows(step) && runsDry(step, run)))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data }));
  },
  say: ({ step, vessel, asked, held }) => ({
    text: `Step ${step.number} draws ${ml(asked)} from ${thingName(vessel)}, which gives ${ml(held)}. Take another container, or draw less.`,
  }),
});
