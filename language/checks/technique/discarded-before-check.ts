import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const discardedBeforeCheck = recipeCheck({
  name: "discarded-before-check",
  family: "technique",
  severity: "warning",
  title: "Used containers thrown away before the check",
  why: "Without containers and syringes the check cannot be done.",
  source: "from memory: keep used containers until the check",
  rows: ["technique-rules keep-evidence"],
  bad: example([
    "    keep mag, filter, needle, syringe for check",
    "    discard mag\n    keep filter, needle, syringe for check",
  ]),
  good: example(),
  happening: "discarded-before-check",
  find: ({ run }) => happened(run, "discarded-before-check").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, thing }) => ({
    text: `Step ${step.number} discards ${thingName(thing)} before anybody has checked. Keep it for the check: \`keep ${thing.name} for check\`.`,
  }),
});
