/**
 * One slip is told once. Where a finding only repeats what another one already says of the same slip, it is left out, but never
 * when the site or a deviation keeps that other one quiet, or when a run with unknown figures leaves it unjudged: then nobody would
 * be told.
 */
import { happened, type Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Vessel } from "../bench/things.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import { contradictsItsClaim } from "./claims.ts";
import type { RecipeContext } from "./context.ts";
import { slipsOf } from "./slips.ts";

/** Whether a finding of this name is shown as an error wherever it is found in this recipe. */
export function isTold(name: string, { recipe, policy }: Pick<RecipeContext, "recipe" | "policy">): boolean {
  return isShownAsError(name, recipe, policy);
}

/** Whether what is told of the volume that a step measures only repeats that the step moves another volume than stated beside it. */
export function isConsequence(step: StepRun, run: Run, context: Pick<RecipeContext, "recipe" | "policy">): boolean {
  if (followsSlip(step, run)) return true;
  if (run.unknown || !isTold("claim-differs", context)) return false;
  return followsAnotherStep(step, run);
}

/** Whether the step is told as wrong in its figures, or works with what such a step before it made. */
export function followsSlip(step: StepRun, run: Run): boolean {
  const slips = slipsOf(run);
  return slips.wrong.has(step) || slips.follows(step);
}

/**
 * A step that withdraws `added-volume` moves what other steps add. Where one of those is told for its volume, the volume withdrawn is
 * wrong for no fault of its own.
 */
export function followsAnotherStep(step: StepRun, run: Run): boolean {
  if (run.unknown || step.verb !== "withdraw" || !(step.slots as { figure?: unknown }).figure) return false;
  return run.steps.some((other) => other !== step && other.verb !== "withdraw" && contradictsItsClaim(other));
}

/** Whether a container is still a powder because the step that reconstitutes it names something that does not stand there, which is told. */
export function isLeftPowder(vessel: Vessel, run: Run): boolean {
  return (
    vessel.powder !== undefined &&
    isTold("unknown-thing", run) &&
    happened(run, "unknown-thing").some(({ step }) => step.verb === "reconstitute" && step.touched.includes(vessel))
  );
}
