import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const preparationDiscarded = recipeCheck({
  name: "preparation-discarded",
  family: "technique",
  severity: "error",
  title: "The finished container is thrown away",
  why: "Another container was meant, and that one is still on the bench.",
  source: "common practice",
  bad: example(["    label bag\n", "    label bag\n    discard bag\n"]),
  good: example(),
  happening: "preparation-discarded",
  find: ({ run }) => happened(run, "preparation-discarded").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, thing }) => ({
    text: `Step ${step.number} discards ${thingName(thing)}, which is what the recipe makes. Name what is to be thrown away.`,
  }),
});
