import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const needleWiped = recipeCheck({
  name: "needle-wiped",
  family: "technique",
  severity: "warning",
  title: "A needle or filter wiped with alcohol",
  why: "The silicone coat comes off and lint is left.",
  source: "Aseptic techniques (teaching chapter, public document site, undated, needles and syringes)",
  rows: ["technique-rules no-swab-needle"],
  bad: example(["    disinfect bag\n", "    disinfect needle\n    disinfect bag\n"]),
  good: example(),
  happening: "needle-wiped",
  find: ({ run }) => happened(run, "needle-wiped").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ part }) => ({
    text: `${thingName(part)} is wiped; a needle or filter is sterile from its pack and is not wiped. Take it out of this step.`,
  }),
});
