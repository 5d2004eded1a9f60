import { happened } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { powderExample } from "../example.ts";

export const shaken = recipeCheck({
  name: "shaken",
  family: "technique",
  severity: "warning",
  title: "Shaken although the drug must not be",
  why: "Foam, and for proteins a changed drug.",
  source: "from memory: per-drug way of mixing",
  rows: ["technique-rules shake-vs-swirl"],
  bad: powderExample(["    mix sack by inverting 10 times", "    mix sack by shaking"]),
  good: powderExample(),
  happening: "shaken",
  find: ({ run }) => happened(run, "shaken").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, drug }) => ({
    text: `Step ${step.number} shakes ${thingName(vessel)} with ${drug}, which must not be shaken. ${step.verb === "shake" ? "Swirl it" : "Mix by inverting, rolling or swirling"}.`,
  }),
  fixes: ({ at, step }) =>
    step.verb === "shake"
      ? [{ title: "Swirl it", edits: [replaceText(verbOf(step), "swirl")] }]
      : [{ title: "Mix by inverting", edits: [replaceText(at, "inverting")] }],
});

function verbOf({ step: { start } }: StepRun): Spot {
  return { start, end: start + "shake".length };
}
