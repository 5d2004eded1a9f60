import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const addedWhileRunning = recipeCheck({
  name: "added-while-running",
  family: "technique",
  severity: "error",
  title: "Added to a container that is running",
  why: "Outlet concentration reached 21 times the mixed value.",
  source:
    "Incomplete mixing of drugs in intravenous infusions (journal abstract, undated): 21 times the mixed concentration at the outlet",
  rows: ["technique-rules no-add-while-hanging"],
  bad: example(["    disinfect bag\n", "    start bag\n    disinfect bag\n"]),
  good: example(),
  happening: "added-while-running",
  find: ({ run }) => happened(run, "added-while-running").map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, vessel, since }) => ({
    text: `Step ${step.number} adds to ${thingName(vessel)}, running since step ${since.number}. Never add to a running container.`,
    related: [{ at: since.step, text: "started here" }],
  }),
});
