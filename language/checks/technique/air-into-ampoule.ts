import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const airIntoAmpoule = recipeCheck({
  name: "air-into-ampoule",
  family: "technique",
  severity: "error",
  title: "Air pushed into an open ampoule",
  why: "An open ampoule needs no air; it spills.",
  source: "Aseptic technique brochure (public slide deck, undated, ampules panel)",
  rows: ["technique-rules amp-bevel-not-deep"],
  bad: example([
    "    draw 4 g from mag into syringe  = 8 mL",
    "    draw 4 g from mag into syringe at equal pressure  = 8 mL",
  ]),
  good: example(),
  happening: "air-into-ampoule",
  find: ({ run }) => happened(run, "air-into-ampoule").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel }) => ({
    text: `Step ${step.number} gives ${thingName(vessel)} air, but an ampoule is open. Leave out the words on pressure.`,
  }),
});
