import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const ampouleNotOpened = recipeCheck({
  name: "ampoule-not-opened",
  family: "technique",
  severity: "error",
  title: "Drawn from an ampoule that no step has opened",
  why: "A step that everybody takes for granted is a step that the sheet does not have.",
  source: "common practice",
  rows: [],
  bad: example(["    disinfect mag\n", ""], ["    open mag\n", ""]),
  good: example(),
  happening: "ampoule-not-opened",
  *find({ run }) {
    for (const { spot, step, data } of happened(run, "ampoule-not-opened"))
      if (!mayHaveDone(["open"], run, step)) yield { at: spot, step, vessel: data.vessel };
  },
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} draws from ${thingName(vessel)}, an ampoule that is still closed. Disinfect it and open it before.`,
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Disinfect and open ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `disinfect ${vessel.name}\n    open ${vessel.name}`)],
    },
  ],
});
