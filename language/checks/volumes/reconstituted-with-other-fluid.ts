import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";

export const reconstitutedWithOtherFluid = recipeCheck({
  name: "reconstituted-with-other-fluid",
  family: "volumes",
  severity: "error",
  title: "Reconstituted with another fluid than the label says",
  why: "The powder may not dissolve, or not be stable.",
  source: "the product label",
  rows: [],
  bad: powderExample([
    "    with          10 mL of water-for-injection",
    "    with          10 mL of sodium-chloride-0.9",
  ]),
  good: powderExample(),
  happening: "reconstituted-with-other-fluid",
  find: ({ run }) =>
    happened(run, "reconstituted-with-other-fluid").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel, fluid, label }) => ({
    text: `Adds ${fluid} to ${thingName(vessel)}; its label says ${label}. Use ${label}.`,
  }),
});
