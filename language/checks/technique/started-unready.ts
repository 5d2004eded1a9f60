import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

const checked = "    check by pharmacist\n";

export const startedUnready = recipeCheck({
  name: "started-unready",
  family: "technique",
  severity: "error",
  title: "A container that runs before it is labelled or checked",
  why: "What runs without a label is somebody else's infusion to the next who looks, and what is checked afterwards is in the patient.",
  source: "common practice",
  bad: example(["    seal bag\n", "    check by pharmacist\n    seal bag\n    start bag\n"]),
  good: example([checked, `${checked}    start bag\n`]),
  happening: "started-unready",
  *find({ run }) {
    const added = new Set(happened(run, "added-while-running").map(({ data }) => data.vessel));
    for (const { spot, step, data } of happened(run, "started-unready")) {
      // That it was started too early is told by what is added to it.
      if (added.has(data.vessel) || mayHaveDone([data.lacks], run, step)) continue;
      yield { at: spot, step, ...data };
    }
  },
  say: ({ step, vessel, lacks }) => ({
    text:
      lacks === "label"
        ? `Step ${step.number} starts ${thingName(vessel)}, which no step before has labelled. Label it first.`
        : `Step ${step.number} starts ${thingName(vessel)}, which nobody has checked since it was filled. Put the check by a person before it.`,
  }),
});
