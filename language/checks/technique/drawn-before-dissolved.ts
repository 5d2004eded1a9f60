import { happened, type Run } from "../../bench/run.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import { type MixingEnd, mixingVerbs } from "../../bench/verbs/mixing.ts";
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
      .map((h) => ({ at: h.spot, step: h.step, end: endOf(h.data.vessel, run), ...h.data })),
  say: ({ step, vessel, since, end }) => ({
    text: `Step ${step.number} draws from ${thingName(vessel)}, reconstituted in step ${since.number} and not yet ${end}. Swirl it until ${end} before.`,
    related: [{ at: since.step, text: "reconstituted here" }],
  }),
  fixes: ({ step, vessel, end }, { chunk }) => [
    {
      title: `Swirl ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `swirl ${vessel.name} until ${end}`)],
    },
  ],
});

function endOf({ liquid }: Vessel, { setup }: Run): MixingEnd {
  const isSuspension = (drug: string) =>
    setup.drugs.get(drug)?.facts.one("nature")?.slots.nature.choice === "suspension";
  return liquid.drugs.some(isSuspension) ? "suspended" : "dissolved";
}
