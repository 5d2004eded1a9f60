import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";

export const checkedWithAirInSyringe = recipeCheck({
  name: "checked-with-air-in-syringe",
  family: "technique",
  severity: "warning",
  title: "A drawn volume is checked while air is still in the syringe",
  why: "The one who checks reads the scale: with air in the barrel the reading is not the dose.",
  source: "common practice",
  bad: example([
    "    expel air from syringe\n    replace filter on syringe with needle\n",
    "    replace filter on syringe with needle\n    check by pharmacist\n    expel air from syringe\n",
  ]),
  good: example([
    "    replace filter on syringe with needle\n",
    "    replace filter on syringe with needle\n    check by aseptic-lead\n",
  ]),
  happening: "checked-with-air",
  *find({ run }) {
    if (run.plan.broken) return;
    const never = happened(run, "air-not-expelled").map((h) => h.data.syringe);
    for (const { spot, step, data } of happened(run, "checked-with-air")) {
      // Air that is never expelled is told once, where it is pushed or left.
      if (!never.includes(data.syringe) && data.syringe.airExpelled) yield { at: spot, step, ...data };
    }
  },
  say: ({ step, syringe, drawn }) => ({
    text: `Step ${step.number} has ${thingName(syringe)} checked before its air is expelled. Expel the air first.`,
    ...(drawn ? { related: [{ at: drawn.step, text: "drawn here" }] } : {}),
  }),
  fixes: ({ step, syringe }, { chunk }) => [
    { title: "Expel the air before", edits: [stepBefore(chunk.text, step.step, `expel air from ${syringe.name}`)] },
  ],
});
