import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const noNeedleAttached = recipeCheck({
  name: "no-needle-attached",
  family: "technique",
  severity: "error",
  title: "A container entered with a bare syringe",
  why: "Without needle, filter or spike nothing can be drawn or injected; the step is done some other way that the sheet does not say.",
  source: "common practice",
  rows: [],
  bad: example(
    ["    replace filter on syringe with needle\n", "    remove filter from syringe\n"],
    [
      "    keep mag, filter, needle, syringe for check",
      "    attach needle to syringe\n    keep mag, filter, needle, syringe for check",
    ],
  ),
  good: example(),
  happening: "no-needle-attached",
  find: ({ run }) => happened(run, "no-needle-attached").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, syringe, other }) => ({
    text: `Step ${step.number} goes into ${thingName(other)} with ${thingName(syringe)}, which carries no needle, filter or spike. Attach one before.`,
  }),
});
