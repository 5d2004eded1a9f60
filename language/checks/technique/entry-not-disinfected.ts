import { happened } from "../../bench/run.ts";
import { isSealedVial, thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const entryNotDisinfected = recipeCheck({
  name: "entry-not-disinfected",
  family: "technique",
  severity: "error",
  title: "A stopper or port entered without wiping it",
  why: "The needle carries in what is on the stopper or port.",
  source:
    "Vial use during sterile compounding (public exam-preparation site, undated, steps 1 to 7); from memory: USP <797> 2023, disinfecting critical sites",
  rows: ["technique-rules vial-disinfect-dry", "technique-rules port-disinfect-dry"],
  bad: example(["    disinfect bag\n", ""]),
  good: example(),
  happening: "entry-not-disinfected",
  find: ({ run }) =>
    happened(run, "entry-not-disinfected")
      .filter((h) => !mayHaveDone(["disinfect"], run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} enters ${thingName(vessel)}, whose ${isSealedVial(vessel) ? "stopper" : "port"} has not been wiped since it was last touched. Disinfect it before.`,
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Disinfect ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `disinfect ${vessel.name}`)],
    },
  ],
});
