import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";
import { oneOf } from "../showing.ts";

export const secondDrugInSyringe = recipeCheck({
  name: "second-drug-in-syringe",
  family: "technique",
  severity: "error",
  title: "A syringe that held one drug goes into another stock container",
  why: "The second container is contaminated, and two drugs meet in the hub.",
  source: "from memory: new syringe and needle for each drug",
  rows: ["technique-rules same-syringe-cross", "technique-rules alkali-own-syringe"],
  bad: powderExample([
    "    check by pharmacist\n  }\n\n  preparation sack",
    "    check by pharmacist\n    disinfect wfi\n    draw 5 mL from wfi into measure at equal pressure\n    discard measure\n  }\n\n  preparation sack",
  ]),
  good: powderExample(),
  happening: "second-drug-in-syringe",
  find: ({ run }) => happened(run, "second-drug-in-syringe").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, syringe, had, now }) => ({
    text: `Step ${step.number} puts ${thingName(syringe)}, which held ${oneOf(had)}, into ${now}. Take a new syringe; a second drug drawn on purpose is written \`on top\`.`,
  }),
});
