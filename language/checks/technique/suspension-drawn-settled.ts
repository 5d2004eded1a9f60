import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import { isMixing, mixingVerbs } from "../../bench/verbs/mixing.ts";
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
  /** The last step before that mixed it, and the step after that in which it stood. */
  mixed: StepRun | undefined;
  stood: StepRun | undefined;
}

const suspension: [string, string] = [
  "  light          not-sensitive\n",
  "  light          not-sensitive\n  nature         suspension\n  filter         never below 5 micrometre\n",
];

const form: [string, string] = ["form           solution-for-infusion", "form           suspension-for-infusion"];

/** Work elsewhere, in which what stays in the container settles again. */
const otherWork: ReadonlySet<string> = new Set(["inject", "add", "transfer", "fill", "label", "seal", "inspect"]);

export const suspensionDrawnSettled = recipeCheck<Settled>({
  name: "suspension-drawn-settled",
  family: "technique",
  severity: "error",
  title: "A suspension drawn without mixing it just before",
  why: "Its particles settle: the first doses of a vial hold too little, and the last too much.",
  source: "common practice",
  bad: example(suspension, form),
  good: example(suspension, form, ["    tap mag\n", "    mix mag by inverting 10 times\n    tap mag\n"]),
  *find({ run }) {
    const told = new Set<string>();
    for (const step of run.steps) {
      for (const { how, from, spot } of step.movements) {
        if ((how !== "draw" && how !== "transfer") || !from || told.has(from.name)) continue;
        const drug = settles(from, step, run);
        const mixed = lastMixed(from, step, run);
        // What was made at the bench and never mixed is told as not mixed, or not dissolved.
        if (drug === undefined || (!mixed && !isLiquidStock(from))) continue;
        const stood = mixed && stoodBetween(mixed, step, from, run);
        if (mixed && !stood) continue;
        told.add(from.name);
        if (!mayHaveDone(mixingVerbs, run, step)) yield { at: spot, step, vessel: from, drug, mixed, stood };
      }
    }
  },
  say({ step, vessel, drug, mixed, stood }) {
    const since =
      mixed && stood
        ? `it was mixed last in step ${mixed.number} and stood while step ${stood.number} was done`
        : "no step before mixes it";
    return {
      text: `Step ${step.number} draws from ${vessel.name}, and ${since}: ${drug} is a suspension and settles. Add \`mix ${vessel.name} by inverting 10 times\` before.`,
    };
  },
  fixes: ({ step, vessel }, { chunk }) => [
    {
      title: `Mix ${vessel.name} before`,
      edits: [stepBefore(chunk.text, step.step, `mix ${vessel.name} by inverting 10 times`)],
    },
  ],
});

/** The drug in it that its monograph calls a suspension. */
function settles(vessel: Vessel, step: StepRun, { setup }: Run): string | undefined {
  const drugs = step.after.get(vessel)?.drugs ?? vessel.liquid.drugs;
  return drugs.find((drug) => setup.drugs.get(drug)?.facts.one("nature")?.slots.nature.choice === "suspension");
}

/** Bought as a liquid, in which the particles lie at the bottom. */
function isLiquidStock({ kind, stock }: Vessel): boolean {
  return kind !== "powder-vial" && stock?.facts.one("drug") !== undefined;
}

function lastMixed(vessel: Vessel, step: StepRun, { steps }: Run): StepRun | undefined {
  return steps.findLast(
    (other) => other.number < step.number && !other.skipped && isMixing(other.verb) && other.touched.includes(vessel),
  );
}

/**
 * The step in which it stood after it was mixed: one that waits, or one of other work after some was drawn already. Drawing at once, and
 * into one syringe after another, is no standing; nor is the drying of a stopper.
 */
function stoodBetween(mixed: StepRun, step: StepRun, vessel: Vessel, { steps }: Run): StepRun | undefined {
  let isBegun = false;
  for (const other of steps) {
    if (other.number <= mixed.number || other.number >= step.number || other.skipped) continue;
    if (other.verb === "wait" && (other.slots as { event?: { choice: string } }).event?.choice !== "dry") return other;
    const isCheckBySomebody = "role" in (other.slots as object);
    if (isBegun && (otherWork.has(other.verb) || isCheckBySomebody)) return other;
    isBegun ||= other.movements.some(({ from }) => from === vessel);
  }
  return undefined;
}
