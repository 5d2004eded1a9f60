import { happened, type Run } from "../../bench/run.ts";
import type { Claim, StepRun } from "../../bench/step-run.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { askedBetweenMarks, states, statesAsked } from "../claims.ts";
import { followsAnotherStep, isTold } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { behindStep } from "../figures-behind.ts";
import { missingVolumes } from "../missing-doses.ts";
import { ml } from "../showing.ts";
import { givesDoseSlip, isRanged, isShort, runsDry, slipsOf } from "../slips.ts";
import { isOrderBackwards, isOrderRangeUnread } from "../units/range-backwards.ts";
import { isExampleDoseTold } from "./example-differs.ts";
import { isLeastAndMost } from "./least-and-most.ts";

export const claimDiffers = recipeCheck({
  name: "claim-differs",
  family: "volumes",
  severity: "error",
  across: true,
  title: "The volume beside a step is not what the step moves",
  why: "The stated figure is the second check; one of the two is wrong.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: example(["= 8 mL", "= 0.8 mL"]),
  good: example(),
  *find(context) {
    const { runs, run, range, recipe, policy } = context;
    if (isOrderBackwards(recipe) && isShownAsError("range-backwards", recipe, policy)) return;
    const ordinary = runs.filter((r) => r.overfill === "label");
    // Of a range, a figure that is not known for some patients leaves the least and the most unknown.
    if (ordinary.some((r) => r.unknown)) return;
    for (const [i, step] of run.steps.entries()) {
      for (const claim of step.claims) {
        // The least and the most for anybody are not known where it cannot be read for whom the order is.
        if (claim.isRange && isOrderRangeUnread(recipe)) continue;
        if (claim.kind !== "moves" || ordinary.every((r) => r.steps[i]?.skipped)) continue;
        // Of a ranged order the claim is the least and the most that the step moves for anybody.
        const moved = ordinary.filter((r) => !r.steps[i]?.skipped).map((r) => r.steps[i]?.moved);
        const known = moved.filter((v) => v !== undefined);
        const [one, ...others] = known;
        const all = one !== undefined && known.length === moved.length;
        const low = all ? Exact.least(one, ...others) : undefined;
        const high = all ? Exact.greatest(one, ...others) : undefined;
        const from = claim.from.quantity;
        const to = claim.to.quantity;
        if (!from || !to || (range && followsDose(step) && isExampleDoseTold(context))) continue;
        if (!low || !high || from.unit.dimension.key !== "volume" || to.unit.dimension.key !== "volume") {
          // An empty syringe moves nothing, whatever stands beside it.
          if (ordinary.some((r) => r.steps[i] && pushesNothing(r.steps[i], r))) continue;
          yield {
            at: claim.spot,
            value: claim,
            number: step.number,
            low: undefined,
            high: undefined,
            stated: claim.from.written,
            instead: low && high ? between(low, high) : undefined,
            behind: [],
          };
        } else if (!isLeastAndMost(from, to, low, high, range)) {
          if (ordinary.some((r) => r.steps[i] && isToldElsewhere(r.steps[i], r))) continue;
          if (ordinary.every((r) => r.steps[i] && isForMissingDose(claim, r.steps[i], r))) continue;
          const asked = ordinary.flatMap((r) => askedOf(r.steps[i], r));
          if (statesBoth([inBase(from), inBase(to)], asked)) continue;
          yield {
            at: claim.spot,
            value: claim,
            number: step.number,
            low,
            high,
            stated: claim.isRange ? `${claim.from.written} to ${claim.to.written}` : claim.from.written,
            instead: undefined,
            behind: behindStep(step, run),
          };
        }
      }
    }
  },
  say({ value, number, low, high, stated, instead, behind }) {
    if (instead !== undefined)
      return {
        text: `Beside step ${number} stands ${stated}, which is no volume; the step moves ${instead}. Write the volume, or take the figure out.`,
      };
    if (!low || !high)
      return {
        text: `Beside step ${number} stands ${stated}, but the step moves no volume of liquid. Take the figure out.`,
      };
    const moved = between(low, high);
    const factor = value.from.quantity && low.equals(high) ? factorBetween(inBase(value.from.quantity), low) : "";
    return {
      text: `Beside step ${number} stands ${stated}; the step moves ${moved}${factor}. Find out which is wrong and mend it.`,
      related: behind,
    };
  },
  fixes({ value, low, high, number }, { runs }) {
    // Stating what no syringe or container there can hold, or that nothing is moved, would only hide which figure is wrong.
    if (!low?.isPositive() || !high || runs.some((run) => isTooMuch(number, run))) return [];
    const moved = between(low, high);
    return [{ title: `State ${moved}`, edits: [replaceText({ start: value.from.start, end: value.to.end }, moved)] }];
  },
});

function isTooMuch(number: number, run: Run): boolean {
  const isHere = ({ step }: { step: StepRun }) => step.number === number;
  return happened(run, "draw-beyond-syringe").some(isHere) || happened(run, "container-overfilled").some(isHere);
}

function between(low: Exact, high: Exact): string {
  return low.equals(high) ? ml(low) : `${ml(low)} to ${ml(high)}`;
}

interface Asked {
  volume: Exact;
  /** No mark of the scale shows it. */
  isBetweenMarks: boolean;
}

/** It withdraws what the steps add, and is right once a dose that is told as missing is added too. */
function isForMissingDose({ from, to }: Claim, step: StepRun, run: Run): boolean {
  const figure = (step.slots as { figure?: unknown }).figure;
  if (step.verb !== "withdraw" || figure === undefined || !step.moved || !from.quantity || !to.quantity) return false;
  const lacking = step.result && missingVolumes(run).get(step.result);
  const whole = lacking && step.moved.plus(lacking);
  return whole !== undefined && [from.quantity, to.quantity].every((stated) => statesAsked(inBase(stated), whole));
}

/** What a step asks for; what it moves, where that is on a mark. */
function askedOf(step: StepRun | undefined, run: Run): Asked[] {
  if (!step?.moved || step.skipped) return [];
  const asked = askedBetweenMarks(step, run);
  return [{ volume: asked ?? step.moved, isBetweenMarks: asked !== undefined }];
}

/** The calculated volume stands there; that no mark shows it is told as such. */
function statesBoth([from, to]: readonly [Exact, Exact], asked: readonly Asked[]): boolean {
  const [one, ...others] = asked;
  if (!one) return false;
  const least = others.reduce((a, b) => (b.volume.isBelow(a.volume) ? b : a), one);
  const most = others.reduce((a, b) => (b.volume.isAbove(a.volume) ? b : a), one);
  return statesOne(from, least) && statesOne(to, most);
}

function statesOne(stated: Exact, { volume, isBetweenMarks }: Asked): boolean {
  return isBetweenMarks ? statesAsked(stated, volume) : states(stated, volume);
}

/** Told as an injection of nothing; what makes room for it then withdraws nothing. */
function pushesNothing(step: StepRun, run: Run): boolean {
  if (!isTold("nothing-to-push", run)) return false;
  const pushed = happened(run, "nothing-to-push");
  const makesRoom = step.verb === "withdraw" && (step.slots as { figure?: unknown }).figure !== undefined;
  return makesRoom ? pushed.length > 0 : pushed.some((h) => h.step === step);
}

/** Another step is told for it, a container that is missing, or a dose that is rounded to nothing. */
function isToldElsewhere(step: StepRun, run: Run): boolean {
  return (
    followsAnotherStep(step, run) ||
    slipsOf(run).follows(step) ||
    givesDoseSlip(step, run) ||
    (isTold("too-few-containers", run) && isShort(step, run)) ||
    (!isRanged(run) && runsDry(step, run))
  );
}

/** It moves the ordered dose, or the volume of what is added. */
function followsDose({ slots }: StepRun): boolean {
  const choice = (slots as { figure?: { choice?: string } }).figure?.choice;
  return choice !== undefined && choice !== "all" && choice !== "diluent-volume";
}
