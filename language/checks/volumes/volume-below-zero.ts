import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { ml } from "../showing.ts";
import { slipsOf } from "../slips.ts";

export const volumeBelowZero = recipeCheck({
  name: "volume-below-zero",
  family: "volumes",
  severity: "error",
  title: "Made up to less than is already there",
  why: "The step cannot be done.",
  source: "common practice",
  rows: [],
  bad: powderExample([
    "    disinfect sack\n    inject",
    "    make up measure to 10 mL with wfi\n    disinfect sack\n    inject",
  ]),
  good: powderExample(),
  happening: "volume-below-zero",
  find: ({ run }) =>
    happened(run, "volume-below-zero")
      .filter((h) => !(slipsOf(run).follows(h.step) || slipsOf(run).changesVolumeOf(h.data.vessel)))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, wanted, held }) => ({
    text: `Step ${step.number} makes ${thingName(vessel)} up to ${ml(wanted)}, and it holds ${ml(held)} already. Correct the volume, or what goes in before.`,
  }),
});
