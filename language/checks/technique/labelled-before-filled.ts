import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { oncePerContainer } from "../same-slip.ts";
import { soDo } from "../showing.ts";

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
  find: ({ run }) => oncePerContainer(happened(run, "labelled-before-filled")),
  say: ({ step, more, vessel, since }) => ({
    text: `Step ${step.number} adds to ${thingName(vessel)}, which already carries its label${soDo(more)}. Label it after the last addition.`,
    related: [{ at: since.step, text: "labelled here" }],
  }),
});
