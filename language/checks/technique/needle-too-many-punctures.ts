import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { type Part, thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { powderExample } from "../example.ts";

/** No step before went through anything with it: to replace it before would help nothing. */
function isOfOneStep(needle: Part, step: StepRun, run: Run): boolean {
  return run.steps.filter((each) => each.through.includes(needle)).every((each) => each.number >= step.number);
}

export const needleTooManyPunctures = recipeCheck({
  name: "needle-too-many-punctures",
  family: "technique",
  severity: "note",
  title: "A needle used for too many punctures",
  why: "A blunt needle cuts cores from the stopper.",
  source:
    "Aseptic techniques (teaching chapter, public document site, undated, needles and syringes): about five punctures",
  rows: ["technique-rules needle-punctures"],
  bad: powderExample(["  expiry-ahead   30 days", "  expiry-ahead   30 days\n  needle-punctures up to 3"]),
  good: powderExample(),
  happening: "needle-too-many-punctures",
  find: ({ run }) =>
    happened(run, "needle-too-many-punctures")
      .filter((h) => !followsSlip(h.step, run))
      .map((h) => ({ at: h.spot, step: h.step, isAlone: isOfOneStep(h.data.needle, h.step, run), ...h.data })),
  say: ({ step, needle, punctures, most, isAlone }) => ({
    text: isAlone
      ? `Step ${step.number} alone punctures more than ${most} times with ${thingName(needle)}; the site changes a needle after ${most}. Use a spike or a larger syringe, or split the step and replace the needle between.`
      : `Step ${step.number} is puncture ${punctures} with ${thingName(needle)}; the site changes a needle after ${most}. Replace it before.`,
  }),
});
