import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const usedAfterDiscard = recipeCheck({
  name: "used-after-discard",
  family: "technique",
  severity: "error",
  title: "Something used after it was thrown away",
  why: "The step cannot be done as written.",
  source: "common practice",
  bad: example(["    inject syringe into bag\n", "    inject syringe into bag\n    discard needle\n"]),
  good: example(),
  happening: "used-after-discard",
  find: ({ run }) => happened(run, "used-after-discard").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, thing, since }) => ({
    text: `Step ${step.number} uses ${thingName(thing)}, discarded in step ${since.number}. Discard it later, or name another.`,
    related: [{ at: since.step, text: "discarded here" }],
  }),
});
