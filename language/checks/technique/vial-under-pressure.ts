import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { ml } from "../showing.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

export const vialUnderPressure = recipeCheck({
  name: "vial-under-pressure",
  family: "technique",
  severity: "warning",
  title: "A vial left under pressure",
  why: "It sprays when the needle leaves, and drug is lost.",
  source:
    "Aseptically transferring drug from a vial (teaching laboratory, public university page, undated, steps); from memory: when diluent goes in, the same volume of air comes out",
  rows: ["technique-rules recon-air-balance", "technique-rules vial-no-overpressure"],
  bad: powderExample([
    "    reconstitute vial with 10 mL from wfi using measure at equal pressure",
    "    reconstitute vial with 10 mL from wfi using measure",
  ]),
  good: powderExample(),
  happening: "vial-under-pressure",
  find: ({ run }) =>
    happened(run, "vial-under-pressure")
      .filter((h) => !mayHaveDone(partsMoved, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, volume }) => ({
    text: `Step ${step.number} pushes ${ml(volume)} into ${thingName(vessel)} and lets no air out. Add \`at equal pressure\`, or state \`vacuum yes\` in the stock if it is packed so.`,
  }),
});
