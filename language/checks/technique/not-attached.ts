import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

export const notAttached = recipeCheck({
  name: "not-attached",
  family: "technique",
  severity: "error",
  title: "A part taken off that is not there",
  why: "The step does not fit what was done before.",
  source: "common practice",
  rows: [],
  bad: example([
    "    keep mag, filter, needle, syringe for check",
    "    remove filter from syringe\n    keep mag, filter, needle, syringe for check",
  ]),
  good: example(),
  happening: "not-attached",
  find: ({ run }) =>
    happened(run, "not-attached")
      .filter((h) => !mayHaveDone(partsMoved, run, h.step))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ part, syringe }) => ({
    text: `${thingName(part)} is not on ${thingName(syringe)}. Attach it before, or name what is there.`,
  }),
});
