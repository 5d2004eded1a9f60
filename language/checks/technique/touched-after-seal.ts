import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { soDo } from "../showing.ts";
import { toldOnce } from "../told-once.ts";

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
  find: ({ run }) =>
    toldOnce(
      happened(run, "touched-after-seal"),
      (one, other) => one.data.vessel === other.data.vessel && one.data.since === other.data.since,
    ).map(({ first: { spot, step, data }, more }) => ({ at: spot, step, more, ...data })),
  say: ({ step, more, vessel, since }) => ({
    text: `Step ${step.number} goes into ${thingName(vessel)}, sealed in step ${since.number}${soDo(more)}. Seal it last.`,
    related: [{ at: since.step, text: "sealed here" }],
  }),
});
