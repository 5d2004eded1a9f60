import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const ventedSpikeInBag = recipeCheck({
  name: "vented-spike-in-bag",
  family: "technique",
  severity: "warning",
  title: "A vented spike goes into a bag",
  why: "Its air way lets liquid out of a bag, or air into it; it is made for rigid vials.",
  source: "common practice",
  bad: example(
    ["    needle       needle-18-gauge", "    spike        vented-spike"],
    ["filter on syringe with needle", "filter on syringe with spike"],
    ["keep mag, filter, needle, syringe", "keep mag, filter, syringe"],
  ),
  good: example(),
  happening: "vented-spike-in-bag",
  find: ({ run }) => happened(run, "vented-spike-in-bag").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, part }) => ({
    text: `Step ${step.number} enters ${thingName(vessel)} through ${part.name}, a vented spike. Use a needle, or a spike without a vent.`,
  }),
});
