/**
 * One slip is told once. Where a finding only repeats what another one already says of the same slip, it is left out, but never
 * when the site or a deviation keeps that other one quiet, or when a run with unknown figures leaves it unjudged: then nobody would
 * be told.
 */
import { oncePerRun } from "../bench/remembered-run.ts";
import type { Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Thing, Vessel } from "../bench/things.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import type { MeasureSlot } from "../model/slots.ts";
import { makesRoomForWrongStep } from "./claims.ts";
import type { RecipeContext } from "./context.ts";
import { slipsOf } from "./slips.ts";

/** Whether a finding of this name is shown as an error wherever it is found in this recipe. */
export function isTold(name: string, { recipe, policy }: Pick<RecipeContext, "recipe" | "policy">): boolean {
  return isShownAsError(name, recipe, policy);
}

/** Whether what is told of the volume that a step measures only repeats that the step moves another volume than stated beside it. */
export function isConsequence(step: StepRun, run: Run, context: Pick<RecipeContext, "recipe" | "policy">): boolean {
  if (followsSlip(step, run) || isBlind(step, run)) return true;
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
  return !run.unknown && makesRoomForWrongStep(step, run);
}

/**
 * The step measures what follows from a figure that is not known, such as what a container holds that cannot be read. Why it is not
 * known is told always.
 */
export function isBlind(step: StepRun, run: Run): boolean {
  const slots = step.slots as { figure?: { choice: string }; amount?: MeasureSlot };
  if (step.verb === "withdraw") return run.unknown && slots.figure !== undefined;
  if (slots.figure?.choice === "diluent-volume") return false;
  const byAmount = slots.figure !== undefined || slots.amount?.quantity?.unit.dimension.key !== "volume";
  return step.isBlind && byAmount;
}

/**
 * What is in the container is not known, because a label cannot be read or a container does not stand there, at the step that fills it
 * or at one before.
 */
export function isUnknownIn(vessel: Vessel, run: Run): boolean {
  return vessel.contentUnread || unknownIn(run).has(vessel);
}

/** What it comes in cannot be read, so that it is laid out as a vial and may be none. */
export function isContainerUnread({ stock }: Vessel): boolean {
  return stock !== undefined && !stock.facts.one("container") && stock.facts.isUnread("container");
}

const unknownIn = oncePerRun(({ plan, steps }): ReadonlySet<Thing> => {
  const found = new Set<Thing>();
  for (const [k, { skipped, lacksContainer, touched }] of steps.entries()) {
    if (skipped || !plan.steps[k]?.verb.moves) continue;
    const isHere = lacksContainer || touched.some((t) => found.has(t) || (t.is === "vessel" && t.contentUnread));
    if (isHere) for (const thing of touched) found.add(thing);
  }
  return found;
});

/** Fluid that makes room for what is added is not withdrawn because the step names something that does not stand there. */
export function isWithdrawalUnknown(run: Run): boolean {
  return run.steps.some((s) => s.lacksContainer && s.verb === "withdraw");
}

/**
 * Whether a container is still a powder because the step that reconstitutes it names something that does not stand there. That is told
 * always, whatever a site grades or a deviation names.
 */
export function isLeftPowder(vessel: Vessel, run: Run): boolean {
  return (
    vessel.powder !== undefined &&
    run.steps.some((s) => s.lacksContainer && s.verb === "reconstitute" && s.touched.includes(vessel))
  );
}
