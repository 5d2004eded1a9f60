import { isSharp, type Part, thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { mayHaveDone, partsMoved } from "../unread-steps.ts";
import { mixedInBagExample } from "../volumes/mixed-in-bag.ts";

interface Left {
  at: Spot;
  where: string;
  part: Part;
}

const measured: [string, string][] = [
  ["  capacity   150 mL\n", '  capacity   150 mL\n  overfill   3 mL to 5 mL  source guide "bags"\n'],
  ["final-volume    27 mL", "final-volume    28 mL"],
  ["  = 27 mL", "  = 28 mL"],
  ["at   37.04 mg/mL", "at   35.71 mg/mL"],
  ["concentration  37.04 mg/mL", "concentration  35.71 mg/mL"],
];

export const needleLeftOnSyringe = recipeCheck<Left>({
  name: "needle-left-on-syringe",
  family: "technique",
  severity: "warning",
  title: "A finished syringe that leaves with a needle on it",
  why: "A needle in a bag of syringes wounds and leaks, and what is given into a line needs none.",
  source: "common practice",
  bad: mixedInBagExample(
    ...measured,
    ["    replace needle-2 on dose-syringe with cap\n", ""],
    ["    cap          syringe-cap\n", ""],
    ["needle, needle-2, syringe for check", "needle, syringe for check"],
  ),
  good: mixedInBagExample(...measured),
  *find({ run }) {
    if (run.plan.broken || mayHaveDone(partsMoved, run)) return;
    const sharpOn = ({ attached }: Vessel) => attached.findLast(isSharp);
    const said = new Set<string>();
    for (const vessel of run.finals) {
      const part = sharpOn(vessel);
      if (!part || (vessel.kind !== "syringe" && vessel.kind !== "prefilled-syringe")) continue;
      const where = thingOrEach(vessel, run.finals, (other) => sharpOn(other) !== undefined);
      if (said.has(where)) continue;
      said.add(where);
      const last = run.steps.findLast(({ touched, skipped }) => !skipped && touched.includes(vessel));
      yield { at: last?.step ?? vessel.material.name, where, part };
    }
  },
  say: ({ where, part }) => ({
    text: `${where} is finished with ${part.name} on it. Close it with a cap: \`replace ${part.name} on ${where.replace(/^each of /, "")} with\` and a cap from the materials.`,
  }),
});
