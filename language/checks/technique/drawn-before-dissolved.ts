import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { mixingVerbs } from "../../bench/verbs/mixing.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { powderExample } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

export const drawnBeforeDissolved = recipeCheck({
  name: "drawn-before-dissolved",
  family: "technique",
  severity: "error",
  title: "Drawn from a powder vial before it is dissolved",
  why: "Less drug comes out than the volume says.",
  source: "from memory: full dissolution before the first draw",
  rows: ["technique-rules recon-dissolve-before-draw"],
  bad: powderExample(["    swirl vial until dissolved\n", ""]),
  good: powderExample(),
  happening: "drawn-before-dissolved",
  find: ({ run }) =>
    happened(run, "drawn-before-dissolved")
      .filter((h) => !mayHaveDone(["wait", ...mixingVerbs], run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, since }) => ({
    text: `Step ${step.number} draws from ${thingName(vessel)}, reconstituted in step ${since.number} and not yet dissolved. Swirl it until dissolved before.`,
    related: [{ at: since.step, text: "reconstituted here" }],
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Swirl ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `swirl ${vessel.name} until dissolved`)],
    },
  ],
});
