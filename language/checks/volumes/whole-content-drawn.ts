import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const wholeContentDrawn = recipeCheck({
  name: "whole-content-drawn",
  family: "volumes",
  severity: "warning",
  title: "All that a stock container gives is drawn",
  why: "Containers hold more than their label: a vial labelled 80 mg in 2 mL gave nearer 90 mg.",
  source: "Know when and how to address med overfill (pharmacy-technician letter, 2022)",
  rows: ["technique-rules vial-overfill"],
  bad: example(
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw all from mag into syringe  = 10 mL"],
    ["    dose            4 g per bag", "    dose            5 g per bag"],
    ["    concentration  37.04 mg/mL", "    concentration  45.45 mg/mL"],
    ["magnesium-4g {", "magnesium-5g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 5 g"],
  ),
  good: example(),
  happening: "whole-content-drawn",
  find: ({ run }) => happened(run, "whole-content-drawn").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel }) => ({
    text: `Draws all of ${thingName(vessel)}; it may hold more than its label. State the volume or the amount.`,
  }),
});
