import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { powderExample } from "../example.ts";

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
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, needle, punctures, most }) => ({
    text: `Step ${step.number} is puncture ${punctures} with ${thingName(needle)}; the site changes a needle after ${most}. Replace it before.`,
  }),
});
