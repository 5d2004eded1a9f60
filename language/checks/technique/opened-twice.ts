import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

export const openedTwice = recipeCheck({
  name: "opened-twice",
  family: "technique",
  severity: "error",
  title: "An ampoule opened a second time",
  why: "An ampoule is broken once; a second opening means that another ampoule was meant.",
  source: "common practice",
  rows: [],
  bad: example(["    open mag\n", "    open mag\n    open mag\n"]),
  good: example(),
  happening: "opened-twice",
  find: ({ run }) => happened(run, "opened-twice").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ vessel, first }) => ({
    text: `${thingName(vessel)} is already open since step ${first.number}. Take this step out, or name the other ampoule.`,
    related: [{ at: first.step, text: "opened here" }],
  }),
  fixes: ({ step }, { chunk }) => [{ title: "Take the step out", edits: [withoutLine(chunk.text, step.step)] }],
});
