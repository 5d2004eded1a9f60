import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

export const pushBeyondContent = recipeCheck({
  name: "push-beyond-content",
  family: "volumes",
  severity: "error",
  title: "More injected than the syringe holds",
  why: "Less arrives than the step says.",
  source: "common practice",
  rows: [],
  bad: example(["    inject syringe into bag\n", "    inject 9 mL from syringe into bag\n"]),
  good: example(),
  happening: "push-beyond-content",
  find: ({ run }) => happened(run, "push-beyond-content").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, syringe, asked, held }) => ({
    text: `Step ${step.number} takes ${ml(asked)} from ${thingName(syringe)}, which holds ${ml(held)}. Draw more, or inject less.`,
  }),
});
