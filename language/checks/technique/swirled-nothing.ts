import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { isLeftPowder } from "../consequences.ts";
import { powderExample } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

const fillsVial = ["reconstitute", "add", "inject"] as const;

export const swirledNothing = recipeCheck({
  name: "swirled-nothing",
  family: "technique",
  severity: "note",
  title: "Swirled although nothing is to be dissolved",
  why: "The step can never matter; or a reconstitution is missing before it.",
  source: "common practice",
  rows: [],
  bad: powderExample([
    "    disinfect sack\n    inject",
    "    swirl wfi until dissolved\n    disinfect sack\n    inject",
  ]),
  good: powderExample(),
  happening: "swirled-nothing",
  find: ({ run }) =>
    happened(run, "swirled-nothing")
      .filter((h) => !isLeftPowder(h.data.vessel, run) && !mayHaveDone(fillsVial, run, h.step))
      // Of many alike the first stands for all.
      .filter((h, i, all) => all.findIndex((o) => o.step === h.step && o.data.vessel.name === h.data.vessel.name) === i)
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, end }) => ({
    text: `Step ${step.number} mixes ${thingName(vessel)} until ${end}, and there is nothing in it to dissolve. Take the step out, or put the reconstitution before it.`,
  }),
});
