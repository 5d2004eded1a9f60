import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";

export const ampouleNotTapped = recipeCheck({
  name: "ampoule-not-tapped",
  family: "technique",
  severity: "warning",
  title: "An ampoule opened with liquid in its head",
  why: "What stays in the head breaks off with it and is lost from the dose.",
  source: "from memory: all liquid is brought down out of the head before an ampoule is opened",
  rows: ["technique-rules amp-clear-neck"],
  bad: example(["    tap mag\n", ""]),
  good: example(),
  happening: "ampoule-not-tapped",
  find: ({ run }) =>
    // A name that stands for nothing, or an unread step, may be the one that taps it.
    run.plan.broken || happened(run, "unknown-thing").length > 0
      ? []
      : happened(run, "ampoule-not-tapped").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} opens ${thingName(vessel)}, and no step brings the liquid down out of its head. Add \`tap ${vessel.name}\` before.`,
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Tap ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `tap ${vessel.name}`)],
      preferred: true,
    },
  ],
});
