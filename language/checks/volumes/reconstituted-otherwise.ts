import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { ml } from "../showing.ts";

export const reconstitutedOtherwise = recipeCheck({
  name: "reconstituted-otherwise",
  family: "volumes",
  severity: "warning",
  title: "Reconstituted with another volume than the label says",
  why: "The strength is no longer the label's.",
  source:
    "the product label; that powder takes up room: How is ceftriaxone reconstituted (secondary page quoting the FDA label, undated, intravenous table)",
  rows: ["technique-rules powder-displacement"],
  bad: powderExample(
    ["    reconstitute vial with 10 mL from wfi", "    reconstitute vial with 8 mL from wfi"],
    ["into measure at equal pressure  = 10 mL", "into measure at equal pressure  = 8 mL"],
    ["    concentration  4.55 mg/mL", "    concentration  4.63 mg/mL"],
  ),
  good: powderExample(),
  happening: "reconstituted-otherwise",
  find: ({ run }) => happened(run, "reconstituted-otherwise").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel, volume, label }) => ({
    text: `Adds ${ml(volume)} to ${thingName(vessel)}; its label says ${ml(label)}. Use the label's volume; the figures below are computed from what is added.`,
  }),
});
