/**
 * One slip is told once. Where a finding only repeats what another one already says of the same slip, it is left out, but never
 * when the site or a deviation keeps that other one quiet, or when a run with unknown figures leaves it unjudged: then nobody would
 * be told.
 */
import type { Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import { inBase } from "../quantities/quantity.ts";
import type { RecipeContext } from "./context.ts";

/** Whether a finding of this name is shown as an error wherever it is found in this recipe. */
export function isTold(name: string, { recipe, policy }: Pick<RecipeContext, "recipe" | "policy">): boolean {
  return isShownAsError(name, recipe, policy);
}

/** Whether what is told of the volume that a step measures only repeats that the step moves another volume than stated beside it. */
export function isConsequence(step: StepRun, run: Run, context: Pick<RecipeContext, "recipe" | "policy">): boolean {
  if (run.unknown || !isTold("claim-differs", context)) return false;
  return contradictsItsClaim(step) || followsAnotherStep(step, run);
}

/** Whether the volume stated beside the step is another than it moves, which `claim-differs` tells. */
export function contradictsItsClaim(step: StepRun): boolean {
  const { moved } = step;
  return (
    !step.skipped &&
    moved !== undefined &&
    step.claims.some(({ kind, from, to }) => {
      if (kind !== "moves" || !from.quantity || !to.quantity) return false;
      if (from.quantity.unit.dimension.key !== "volume" || to.quantity.unit.dimension.key !== "volume") return false;
      return moved.isBelow(inBase(from.quantity)) || moved.isAbove(inBase(to.quantity));
    })
  );
}

/**
 * A step that withdraws `added-volume` moves what other steps add. Where one of those is told for its volume, the volume withdrawn is
 * wrong for no fault of its own.
 */
export function followsAnotherStep(step: StepRun, run: Run): boolean {
  if (run.unknown || step.verb !== "withdraw" || !(step.slots as { figure?: unknown }).figure) return false;
  return run.steps.some((other) => other !== step && other.verb !== "withdraw" && contradictsItsClaim(other));
}
