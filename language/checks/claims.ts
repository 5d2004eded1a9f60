/** Figures that an author writes beside a step, against what the step moves. */
import { happened, type Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";

/** Whether the volume stated beside the step is another than it moves, which `claim-differs` tells. */
export function contradictsItsClaim(step: StepRun, run: Run): boolean {
  const { moved } = step;
  return (
    !step.skipped &&
    moved !== undefined &&
    step.claims.some(({ kind, from, to }) => {
      if (kind !== "moves" || !from.quantity || !to.quantity) return false;
      if (from.quantity.unit.dimension.key !== "volume" || to.quantity.unit.dimension.key !== "volume") return false;
      const [least, most] = [inBase(from.quantity), inBase(to.quantity)];
      if (!moved.isBelow(least) && !moved.isAbove(most)) return false;
      if (states(least, moved) || states(most, moved)) return false;
      const asked = askedBetweenMarks(step, run);
      const give = asked?.times(inThreeFigures);
      return !give || asked?.isBelow(least.minus(give)) || asked?.isAbove(most.plus(give));
    })
  );
}

/** The volume that a step asks for, where the marks of the scale make it move another one. */
export function askedBetweenMarks(step: StepRun, run: Run): Exact | undefined {
  const rounded = happened(run, "not-on-graduation").filter((h) => h.step === step);
  if (rounded.length === 0) return undefined;
  return rounded.reduce((volume, { data }) => volume?.minus(data.reading).plus(data.asked), step.moved);
}

/**
 * What draws between two marks ask for beyond what they move, in all; below zero where they move more.
 * @param from the first step that counts, where not all do
 */
export function lostByMarks(run: Run, from?: StepRun): Exact {
  const counted = happened(run, "not-on-graduation").filter(({ step }) => !from || step.number >= from.number);
  return counted.reduce((sum, { data }) => sum.plus(data.asked).minus(data.reading), Exact.zero);
}

/** A stated figure is the calculated one, written to three figures. */
export function statesAsked(stated: Exact, asked: Exact): boolean {
  return stated.minus(asked).abs().isAtMost(asked.times(inThreeFigures));
}

const inThreeFigures = Exact.of("0.005");

/**
 * What a person writes who rounds the figure: half up, to four figures or more (4.929 mL for 4.92857 mL; never 5 mL for 5.4 mL). Where
 * the decimals have no end, such as those of 250 g ÷ 0.7 g/mL, it is written rounded and no other way, and three figures will do.
 */
export function states(stated: Exact, derived: Exact): boolean {
  if (stated.equals(derived)) return true;
  if (!statesAsked(stated, derived)) return false;
  for (let figures = derived.terminates() ? 4 : 3; figures <= mostFigures; figures++)
    if (derived.roundedToDigits(figures).equals(stated)) return true;
  return false;
}

const mostFigures = 9;

/** The step withdraws what steps add, and one of those moves another volume than stated beside it. */
export function makesRoomForWrongStep(step: StepRun, run: Run): boolean {
  if (step.verb !== "withdraw" || !(step.slots as { figure?: unknown }).figure) return false;
  return run.steps.some((other) => other !== step && other.verb !== "withdraw" && contradictsItsClaim(other, run));
}
