import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { isContainerUnread } from "../consequences.ts";
import { powderExample } from "../example.ts";
import { ml } from "../showing.ts";

export const noEqualAir = recipeCheck({
  name: "no-equal-air",
  family: "technique",
  severity: "warning",
  title: "A large draw from a sealed vial without equal pressure",
  why: "A vacuum builds up: bubbles and short doses.",
  source: "Aseptically transferring drug from a vial (teaching laboratory, public university page, undated, steps)",
  rows: ["technique-rules vial-equal-air"],
  bad: powderExample([
    "    draw 500 mg from vial into measure at equal pressure",
    "    draw 500 mg from vial into measure",
  ]),
  good: powderExample(),
  happening: "no-equal-air",
  *find({ run }) {
    const told = new Set<number>();
    for (const { spot, step, data } of happened(run, "no-equal-air")) {
      // A step that goes into several vials, or into one several times, lacks the same two words once.
      if (isContainerUnread(data.vessel) || told.has(step.number)) continue;
      told.add(step.number);
      yield { at: spot, step, ...data };
    }
  },
  say: ({ step, vessel, volume }) => ({
    text: `Step ${step.number} draws ${ml(volume)} from ${thingName(vessel)}, a sealed vial, and nothing lets air in. ${remedy(step.verb)}, or use a vented spike.`,
  }),
});

/** Verbs whose steps say at which pressure they draw. */
const saysPressure: ReadonlySet<string> = new Set(["add", "draw", "fill", "inject", "make", "pool", "reconstitute"]);

function remedy(verb: string): string {
  return saysPressure.has(verb) ? "Add `at equal pressure`" : "`draw` it in a step of its own, `at equal pressure`";
}
