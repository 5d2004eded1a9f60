import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const labelledTwice = recipeCheck({
  name: "labelled-twice",
  family: "technique",
  severity: "warning",
  title: "A second label on a container that carries one",
  why: "Of two labels one is read and the other is believed; a label over another hides what was there.",
  source: "common practice",
  bad: example(["    seal bag\n    label bag\n", "    label bag\n    seal bag\n    label bag\n"]),
  good: example(),
  happening: "labelled-twice",
  *find({ run }) {
    // A label put on before everything was in is told itself; the one behind it is then the right one.
    const early = new Set(happened(run, "labelled-before-filled").map(({ data }) => data.vessel.name));
    for (const { spot, step, data } of happened(run, "labelled-twice"))
      if (!early.has(data.vessel.name)) yield { at: spot, step, ...data };
  },
  say: ({ step, vessel, first }) => ({
    text: `Step ${step.number} labels ${thingName(vessel)}, which carries the label of step ${first.number} already. Label it once, when it is finished.`,
    related: [{ at: first.step, text: "labelled here" }],
  }),
});
