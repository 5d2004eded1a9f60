import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { oncePerContainer } from "../same-slip.ts";
import { soDo } from "../showing.ts";

export const touchedAfterSeal = recipeCheck({
  name: "touched-after-seal",
  family: "technique",
  severity: "error",
  title: "A sealed container entered again",
  why: "The seal says that nothing was added afterwards.",
  source: "from memory: tamper-evident seal after the final check",
  rows: ["technique-rules seal-port"],
  bad: example(
    ["    seal bag\n", ""],
    ["    inject syringe into bag\n", "    seal bag\n    inject syringe into bag\n"],
  ),
  good: example(),
  happening: "touched-after-seal",
  find: ({ run }) => oncePerContainer(happened(run, "touched-after-seal")),
  say: ({ step, more, vessel, since }) => ({
    text: `Step ${step.number} goes into ${thingName(vessel)}, sealed in step ${since.number}${soDo(more)}. Seal it last.`,
    related: [{ at: since.step, text: "sealed here" }],
  }),
});
