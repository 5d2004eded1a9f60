import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

export const tipOccupied = recipeCheck({
  name: "tip-occupied",
  family: "technique",
  severity: "error",
  title: "Something is put on a syringe whose tip is taken",
  why: "A syringe has one tip: the step cannot be done, so a step before it is missing.",
  source: "common practice",
  bad: example([
    "    replace filter on syringe with needle\n",
    "    attach needle to syringe\n    remove filter from syringe\n",
  ]),
  good: example([
    "    replace filter on syringe with needle\n",
    "    remove filter from syringe\n    attach needle to syringe\n",
  ]),
  happening: "tip-occupied",
  find: ({ run }) =>
    happened(run, "tip-occupied")
      .filter((h) => !mayHaveDone(partsMoved, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, syringe, by, part }) => ({
    text: `Step ${step.number} puts ${part.name} on ${thingName(syringe)}, where ${by.name} still is. Take ${by.name} off first.`,
  }),
  fixes: ({ step, by }, { chunk }) =>
    by.on
      ? [
          {
            title: `Remove ${by.name} before`,
            edits: [stepBefore(chunk.text, step.step, `remove ${by.name} from ${by.on.name}`)],
          },
        ]
      : [],
});
