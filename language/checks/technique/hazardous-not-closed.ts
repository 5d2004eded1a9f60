import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import { type Part, thingName, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { powderExample } from "../example.ts";
import { soDo } from "../showing.ts";

const hazardous: [string, string][] = [
  [
    '  name           "vancomycin"\n  high-alert     no\n  hazard         not-hazardous',
    '  name           "vancomycin"\n  high-alert     no\n  hazard         hazardous',
  ],
  ["  cabinet        horizontal-laminar-flow", "  cabinet        containment-cabinet"],
  [
    "    draw 500 mg from vial into measure at equal pressure",
    "    draw 500 mg from vial into measure at negative pressure",
  ],
];

/** One needle, one slip, however many containers it enters. */
interface Entries {
  at: Spot;
  part: Part;
  vessel: Vessel;
  drug: string;
  steps: StepRun[];
}

export const hazardousNotClosed = recipeCheck<Entries>({
  name: "hazardous-not-closed",
  family: "technique",
  severity: "warning",
  title: "A hazardous drug moved without a closed transfer device",
  why: "Vapour and drops reach whoever prepares it; such devices are recommended wherever they fit, which is everywhere but on an ampoule. A site that works without may grade this.",
  source:
    "from memory: USP <800>, supplemental engineering controls: closed transfer devices recommended while preparing",
  rows: ["technique-rules hd-cstd"],
  bad: powderExample(...hazardous),
  good: powderExample(...hazardous, ["    thin         needle-21-gauge", "    thin         closed-transfer-device"]),
  happening: "hazardous-not-closed",
  find({ run }) {
    const found = new Map<Part, Entries>();
    for (const { spot, step, data } of happened(run, "hazardous-not-closed")) {
      const same = found.get(data.part);
      if (!same) found.set(data.part, { at: spot, steps: [step], ...data });
      else if (!same.steps.includes(step)) same.steps.push(step);
    }
    return [...found.values()].filter((entries) => !isToldAsAir(entries, run));
  },
  say: ({ part, vessel, drug, steps: [step, ...more] }) => ({
    text: `Step ${step!.number} goes into ${thingName(vessel)} with ${drug}, a hazardous drug, through ${thingName(part)}, a ${part.kind.replaceAll("-", " ")}${soDo(more)}. Use a closed transfer device where one fits.`,
  }),
});

/** Air let into the vial through the same needle is told as an error, with the device as a remedy. */
function isToldAsAir({ steps }: Entries, run: Run): boolean {
  return (
    isTold("hazardous-equal-air", run) && happened(run, "hazardous-equal-air").some(({ step }) => steps.includes(step))
  );
}
