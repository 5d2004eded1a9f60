import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const alreadyAttached = recipeCheck({
  name: "already-attached",
  family: "technique",
  severity: "error",
  title: "A part attached twice",
  why: "The part is elsewhere; another was meant.",
  source: "common practice",
  rows: [],
  bad: example(["    attach filter to syringe\n", "    attach filter to syringe\n    connect filter to syringe\n"]),
  good: example(),
  happening: "already-attached",
  find: ({ run }) => happened(run, "already-attached").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, part, syringe, to }) => ({
    text:
      step.verb === "connect" && to?.name === syringe.name && to.of > 1
        ? `${thingName(part)} is already on ${thingName(syringe)}, and ${thingName(to)} lacks one. State as many in \`materials\`: \`${part.name}  ${to.of} x …\`.`
        : `${thingName(part)} is already on ${thingName(syringe)}. Take it off before, or name another.`,
  }),
});
