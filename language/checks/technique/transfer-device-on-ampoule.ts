import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const transferDeviceOnAmpoule = recipeCheck({
  name: "transfer-device-on-ampoule",
  family: "technique",
  severity: "error",
  title: "A closed transfer device on an ampoule",
  why: "It does not fit: an ampoule has no stopper.",
  source: "from memory: closed transfer devices do not fit ampoules",
  rows: ["technique-rules hd-cstd"],
  bad: example(
    ["    filter       filter-needle-5um", "    filter       closed-transfer-device"],
    ["    needle       needle-18-gauge", "    needle       filter-needle-5um"],
  ),
  good: example(),
  happening: "transfer-device-on-ampoule",
  find: ({ run }) => happened(run, "transfer-device-on-ampoule").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, part }) => ({
    text: `Step ${step.number} draws from ${thingName(vessel)}, an ampoule, through ${thingName(part)}, a closed transfer device that fits no ampoule. Use a filter needle.`,
  }),
});
