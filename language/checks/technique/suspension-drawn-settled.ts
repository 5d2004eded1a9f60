import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { stepBefore } from "../edits.ts";
import { example } from "../example.ts";
import { mayHaveDone } from "../unread-steps.ts";

interface Settled {
  at: Spot;
  step: StepRun;
  vessel: Vessel;
  drug: string;
}

const suspension: [string, string] = [
  "  light          not-sensitive\n",
  "  light          not-sensitive\n  nature         suspension\n  filter         never below 5 micrometre\n",
];

/** What brings the particles of a suspension up again; a powder is swirled until suspended, which is told by a check of its own. */
const mixing: ReadonlySet<string> = new Set(["mix", "swirl", "dissolve"]);

export const suspensionDrawnSettled = recipeCheck<Settled>({
  name: "suspension-drawn-settled",
  family: "technique",
  severity: "error",
  title: "A suspension drawn from its container without mixing it before",
  why: "Its particles settle: the first doses of a vial hold too little, and the last too much.",
  source: "common practice",
  bad: example(suspension),
  good: example(suspension, ["    tap mag\n", "    mix mag by inverting 10 times\n    tap mag\n"]),
  *find({ run }) {
    const told = new Set<string>();
    for (const step of run.steps) {
      for (const { how, from, spot } of step.movements) {
        if (how !== "draw" || !from || told.has(from.name)) continue;
        const drug = settles(from, run);
        if (drug === undefined || isMixedBefore(from, step, run)) continue;
        told.add(from.name);
        if (!mayHaveDone([...mixing], run, step)) yield { at: spot, step, vessel: from, drug };
      }
    }
  },
  say: ({ step, vessel, drug }) => ({
    text: `Step ${step.number} draws from ${vessel.name}, and no step before mixes it: ${drug} is a suspension and settles. Add \`mix ${vessel.name} by inverting 10 times\` before.`,
  }),
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Mix ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `mix ${vessel.name} by inverting 10 times`)],
    },
  ],
});

/** The drug of a liquid stock whose monograph calls it a suspension. */
function settles({ kind, stock }: Vessel, { setup }: Run): string | undefined {
  const drug = kind === "powder-vial" ? undefined : stock?.facts.one("drug")?.slots.drug.name;
  if (drug === undefined) return undefined;
  return setup.drugs.get(drug)?.facts.one("nature")?.slots.nature.choice === "suspension" ? drug : undefined;
}

function isMixedBefore(vessel: Vessel, step: StepRun, { steps }: Run): boolean {
  return steps.some(
    (other) => other.number < step.number && !other.skipped && mixing.has(other.verb) && other.touched.includes(vessel),
  );
}
