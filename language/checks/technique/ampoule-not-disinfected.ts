import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const ampouleNotDisinfected = recipeCheck({
  name: "ampoule-not-disinfected",
  family: "technique",
  severity: "error",
  title: "An ampoule opened without wiping its neck",
  why: "Contamination is carried in at the break.",
  source: "Using ampules, filter needles and an intravenous solution (teaching laboratory)",
  rows: ["technique-rules amp-disinfect-before-open"],
  bad: example(["    disinfect mag\n", ""]),
  good: example(),
  happening: "ampoule-not-disinfected",
  find: ({ run }) =>
    happened(run, "ampoule-not-disinfected")
      .filter((h) => !mayHaveDone(["disinfect"], run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} opens ${thingName(vessel)}, whose neck no step has wiped. Disinfect it before.`,
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Disinfect ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `disinfect ${vessel.name}`)],
    },
  ],
});
