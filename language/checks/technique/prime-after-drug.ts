import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const primeAfterDrug = recipeCheck({
  name: "prime-after-drug",
  family: "technique",
  severity: "warning",
  title: "A set primed with a hazardous drug",
  why: "Drug is spilled when the line is filled.",
  source: "from memory: prime with plain fluid before the hazardous drug is added",
  rows: ["technique-rules hd-prime-before-drug"],
  bad: example(
    ["  hazard         not-hazardous", "  hazard         hazardous"],
    ["  cabinet        horizontal-laminar-flow", "  cabinet        containment-cabinet"],
    ["    needle       needle-18-gauge", "    needle       needle-18-gauge\n    line         giving-set"],
    ["    inspect bag\n", "    disinfect bag\n    prime line with 2 mL from bag\n    inspect bag\n"],
  ),
  good: example(),
  happening: "prime-after-drug",
  find: ({ run }) => happened(run, "prime-after-drug").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} primes with ${thingName(vessel)}, which already holds a hazardous drug. Prime with plain fluid before the drug is added.`,
  }),
});
