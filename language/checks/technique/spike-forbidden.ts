import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";

export const spikeForbidden = recipeCheck({
  name: "spike-forbidden",
  family: "technique",
  severity: "warning",
  title: "A spike in a stopper that must not be spiked",
  why: "The stopper can give way and sterility is lost.",
  source:
    "Nafcillin pharmacy bulk package label (FDA, openFDA record of 2026-06-02, directions); from memory: no dispensing pin in paclitaxel vials",
  rows: ["technique-rules spike-forbidden"],
  bad: powderExample(
    ["    thin         needle-21-gauge", "    thin         dispensing-spike"],
    ["  fill       20 mL", "  fill       20 mL\n  spike      forbidden  source guide"],
  ),
  good: powderExample(),
  happening: "spike-forbidden",
  find: ({ run }) => happened(run, "spike-forbidden").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, part }) => ({
    text: `Step ${step.number} enters ${thingName(vessel)} with ${thingName(part)}; its label forbids a spike. Use a needle.`,
  }),
});
