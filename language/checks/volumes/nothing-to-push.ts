import { happened, type Run } from "../../bench/run.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { followsSlip } from "../consequences.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { mayHaveDone } from "../unread-steps.ts";

const fillsSyringe = ["draw", "make", "connect", "inject", "transfer"] as const;

export const nothingToPush = recipeCheck({
  name: "nothing-to-push",
  family: "volumes",
  severity: "error",
  title: "Injected from an empty syringe",
  why: "The drug never reaches the container.",
  source: "common practice",
  rows: [],
  bad: example(["    inject syringe into bag\n", "    inject syringe into bag\n    inject syringe into bag\n"]),
  good: example(),
  happening: "nothing-to-push",
  find: ({ run }) =>
    happened(run, "nothing-to-push")
      .filter(
        (h) =>
          !(
            followsSlip(h.step, run) ||
            slipsOf(run).reaches(h.data.syringe) ||
            isRoundedAway(h.data.syringe, run) ||
            mayHaveDone(fillsSyringe, run, h.step)
          ),
      )
      .map((h) => ({ at: h.spot, step: h.step, ...h.data })),
  say: ({ step, syringe }) => ({
    text: `Step ${step.number} injects ${thingName(syringe)}, which is empty. Draw before, or take the step out.`,
  }),
});

/** A draw of less than half a mark fills the syringe with nothing, which is told of the draw. */
function isRoundedAway(syringe: Vessel, run: Run): boolean {
  return happened(run, "not-on-graduation").some(({ data }) => data.syringe === syringe && data.reading.isZero());
}
