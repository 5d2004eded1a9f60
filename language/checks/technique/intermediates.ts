/** What happens to a declared intermediate at the bench: filled, labelled, drawn from, thrown away or kept. */
import { oncePerRun } from "../../bench/remembered-run.ts";
import type { Run } from "../../bench/run.ts";
import { vesselsOf } from "../../bench/setup.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Recipe } from "../../model/declaration.ts";
import { standardAnd } from "../example.ts";

export type Intermediate = Recipe["intermediates"][number];

export interface Life {
  intermediate: Intermediate;
  name: string;
  vessel: Vessel;
  /** The last step that put liquid in before it was first drawn from. */
  filled: StepRun;
  /** Steps that took from it afterwards. */
  taken: StepRun[];
  /** The first label put on it once it was filled. */
  labelled: StepRun | undefined;
}

/** Declared intermediates that the steps fill. */
export const lives = oncePerRun(livesIn);

function livesIn(run: Run): readonly Life[] {
  if (run.recipe.intermediates.length === 0) return [];
  return run.recipe.intermediates.flatMap((intermediate) => {
    const name = intermediate.facts.one("in")?.slots.container.name;
    const vessels = name === undefined ? [] : vesselsOf(run.groups.get(name));
    return vessels.flatMap((vessel) => lifeOf(intermediate, name!, vessel, run) ?? []);
  });
}

function lifeOf(intermediate: Intermediate, name: string, vessel: Vessel, run: Run): Life | undefined {
  const steps = run.steps.filter((s) => !s.skipped);
  const takes = (s: StepRun) => s.movements.some((m) => m.from === vessel && m.how !== "waste");
  const fills = (s: StepRun) => gains(s, vessel);
  const first = steps.find(fills);
  if (!first) return undefined;
  const firstTaken = steps.find((s) => s.number > first.number && takes(s) && !fills(s));
  const filled = steps.filter((s) => fills(s) && (!firstTaken || s.number < firstTaken.number)).at(-1)!;
  const taken = steps.filter((s) => s.number > filled.number && takes(s));
  const labelled = steps.find((s) => s.verb === "label" && s.number > filled.number && s.touched.includes(vessel));
  return { intermediate, name, vessel, filled, taken, labelled };
}

/** Liquid came into it in this step. */
export function gains(step: StepRun, vessel: Vessel): boolean {
  return step.movements.some((m) => m.to === vessel);
}

const saline = `
stock saline-vial-20 {
  fluid      sodium-chloride-0.9
  container  vial
  fill       20 mL
  doses      single
  storage    room-temperature
}

lots saline-vial-20 {
  lot "KQ-6101"  expires 2027-09-30
}
`;

const changes: readonly [string, string][] = [
  ["dose            4 g per bag", "dose            1 g per bag"],
  ["recipe magnesium-4g {", "recipe magnesium-1g {"],
  ["Magnesium sulfate 4 g in", "Magnesium sulfate 1 g in"],
  [
    "    syringe      syringe-10mL\n",
    "    saline       saline-vial-20\n    working      syringe-20mL\n    syringe      syringe-10mL\n",
  ],
  [
    "    needle       needle-18-gauge\n",
    "    needle       needle-18-gauge\n    thin         needle-21-gauge\n    join         syringe-connector\n",
  ],
  ["expiry of mag, bag", "expiry of mag, saline, bag"],
  ["    attach filter to syringe\n", "    attach filter to working\n"],
  [
    "    draw 4 g from mag into syringe  = 8 mL\n    expel air from syringe\n    replace filter on syringe with needle\n",
    `    draw 5 g from mag into working  = 10 mL
    expel air from working
    replace filter on working with needle
    disinfect saline
    make up working to 20 mL with saline  giving 250 mg/mL
    mix working by inverting 10 times
    label working
    remove needle from working
    connect working to syringe using join
    draw 1 g from working into syringe  = 4 mL
    expel air from syringe
    check by pharmacist
    remove join from working
    discard working
    attach thin to syringe
`,
  ],
  ["keep mag, filter, needle, syringe for check", "keep mag, saline, filter, needle, thin, syringe for check"],
  [
    "  preparation bag {",
    "  intermediate magnesium-250 {\n    in   working\n    at   250 mg/mL\n    use  at-once\n  }\n\n  preparation bag {",
  ],
  ["concentration  37.04 mg/mL", "concentration  9.615 mg/mL"],
];

/** The standard library with a recipe that dilutes in a working syringe first. Silent as it stands; changes as in `example`. */
export function dilutionExample(...more: [string, string][]): string {
  let text = standardAnd(saline);
  for (const [from, to] of [...changes, ...more]) {
    if (text.split(from).length !== 2) throw new Error(`an example must change just one place: ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}
