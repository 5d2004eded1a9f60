import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const labelledBeforeFilled = recipeCheck({
  name: "labelled-before-filled",
  family: "technique",
  severity: "warning",
  title: "Labelled before everything is in",
  why: "The label says what is not yet there; a mix-up stays unseen.",
  source: "from memory: USP <797> 2023, section 13, label at once after filling",
  rows: ["technique-rules label-at-once"],
  bad: example(["    label bag\n", ""], ["    disinfect bag\n", "    label bag\n    disinfect bag\n"]),
  good: example(),
  happening: "labelled-before-filled",
  find: ({ run }) => happened(run, "labelled-before-filled").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} adds to ${thingName(vessel)}, which already carries its label. Label it after the last addition.`,
  }),
});
