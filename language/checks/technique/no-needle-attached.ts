import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { thingName, thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { soDo } from "../showing.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";

export const noNeedleAttached = recipeCheck({
  name: "no-needle-attached",
  family: "technique",
  severity: "error",
  title: "A container entered with a bare syringe",
  why: "Without needle, filter or spike nothing can be drawn or injected; the step is done some other way that the sheet does not say.",
  source: "common practice",
  rows: [],
  bad: example(
    ["    replace filter on syringe with needle\n", "    remove filter from syringe\n"],
    [
      "    keep mag, filter, needle, syringe for check",
      "    attach needle to syringe\n    keep mag, filter, needle, syringe for check",
    ],
  ),
  good: example(),
  happening: "no-needle-attached",
  find({ run }) {
    // A needle that is missing is missing in every step until something goes on: one slip, however many vials it enters.
    const slips: {
      at: Spot;
      steps: StepRun[];
      syringe: Vessel;
      other: Vessel;
      bare: Set<Vessel>;
      into: Set<Vessel>;
    }[] = [];
    for (const { spot, step, data } of happened(run, "no-needle-attached")) {
      if (mayHaveDone(partsMoved, run, step)) continue;
      const ofSet = slips.find(({ steps, syringe }) => steps[0] === step && syringe.name === data.syringe.name);
      if (ofSet) {
        ofSet.bare.add(data.syringe);
        ofSet.into.add(data.other);
        continue;
      }
      const same = slips.findLast((slip) => slip.bare.has(data.syringe));
      if (same && !isChangedBetween(same.steps.at(-1)!, step, data.syringe, run)) {
        if (!same.steps.includes(step)) same.steps.push(step);
      } else
        slips.push({ at: spot, steps: [step], bare: new Set([data.syringe]), into: new Set([data.other]), ...data });
    }
    return slips;
  },
  say: ({ steps: [step, ...more], syringe, other, bare, into }) => ({
    text: `Step ${step!.number} goes into ${thingOrEach(other, [...into], () => into.size === other.of)} with ${bare.size === syringe.of ? syringe.name : thingName(syringe)}, which carries no needle, filter or spike${soDo(more)}. ${other.kind === "syringe" ? `Join the two before, such as \`connect ${syringe.name} to ${other.name} using …\` with a connector` : "Attach one before"}.`,
  }),
});

/** Something was put on the syringe or taken off it after one step and before another. */
function isChangedBetween(first: StepRun, second: StepRun, syringe: Vessel, { steps }: Run): boolean {
  return steps.some(
    ({ number, verb, touched }) =>
      number > first.number && number < second.number && onTip.has(verb) && touched.includes(syringe),
  );
}

const onTip: ReadonlySet<string> = new Set(["attach", "replace", "remove", "connect"]);
