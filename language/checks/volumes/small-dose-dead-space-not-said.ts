import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip, isBlind } from "../consequences.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

export const smallDoseDeadSpaceNotSaid = recipeCheck({
  name: "small-dose-dead-space-not-said",
  family: "volumes",
  severity: "note",
  title: "A small draw that does not say whether dead space counts",
  why: "In a small dose the liquid in needle and hub is a large share.",
  source: "Know when and how to address med overfill (public pharmacy-technician letter, May 2022)",
  rows: ["technique-rules dead-space"],
  bad: example(
    ["    dose            4 g per bag", "    dose            500 mg per bag"],
    ["    draw 4 g from mag into syringe  = 8 mL", "    draw 500 mg from mag into syringe  = 1 mL"],
    ["    syringe      syringe-10mL", "    syringe      syringe-1mL"],
    ["    concentration  37.04 mg/mL", "    concentration  4.95 mg/mL"],
    ["magnesium-4g {", "magnesium-500mg {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 500 mg"],
  ),
  good: example(),
  happening: "small-dose-dead-space-not-said",
  find: ({ run }) =>
    happened(run, "small-dose-dead-space-not-said")
      .filter((h) => !followsSlip(h.step, run) && !isBlind(h.step, run))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ syringe, volume }) => ({
    text: `Draws ${ml(volume)} into ${thingName(syringe)} and does not say whether needle and hub count. Add \`dead-space included\` or \`dead-space excluded\`.`,
  }),
});
