import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";

export const nothingToPush = recipeCheck({
  name: "nothing-to-push",
  family: "volumes",
  severity: "error",
  title: "Injected from an empty syringe",
  why: "The drug never reaches the container.",
  source: "common practice",
  rows: [],
  bad: example(["    inject syringe into bag\n", "    inject syringe into bag\n    inject syringe into bag\n"]),
  good: example(),
  happening: "nothing-to-push",
  find: ({ run }) =>
    happened(run, "nothing-to-push")
      .filter((h) => !(followsSlip(h.step, run) || slipsOf(run).reaches(h.data.syringe)))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, syringe }) => ({
    text: `Step ${step.number} injects ${thingName(syringe)}, which is empty. Draw before, or take the step out.`,
  }),
});
