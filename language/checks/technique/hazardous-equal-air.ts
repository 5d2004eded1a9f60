import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";

export const hazardousEqualAir = recipeCheck({
  name: "hazardous-equal-air",
  family: "technique",
  severity: "error",
  title: "A hazardous vial brought to equal pressure with air",
  why: "Aerosol of a hazardous drug escapes; the vial is kept below room pressure.",
  source:
    "What is negative pressure technique? (public question page, undated, first answer): air at most 75 percent of the volume withdrawn",
  rows: ["technique-rules hd-negative-pressure"],
  bad: powderExample(
    [
      '  name           "vancomycin"\n  high-alert     no\n  hazard         not-hazardous',
      '  name           "vancomycin"\n  high-alert     no\n  hazard         hazardous',
    ],
    ["  cabinet        horizontal-laminar-flow", "  cabinet        containment-cabinet"],
  ),
  good: powderExample(),
  happening: "hazardous-equal-air",
  find: ({ run }) => happened(run, "hazardous-equal-air").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} brings ${thingName(vessel)}, which holds a hazardous drug, to equal pressure. Write \`at negative pressure\`, or use a closed transfer device.`,
  }),
});
