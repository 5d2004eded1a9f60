/**
 * Steps whose own figures are told as wrong, and what comes of them. A reconstitution with another volume than meant changes every
 * draw, claim and strength behind it; told at each of them, one slip hides the next. The first step is always told itself.
 */
import { asksForDose, type DoseSlots } from "../bench/dose-asked.ts";
import { endsOf, orderedDoses } from "../bench/order.ts";
import type { OrderedDose, OrderPoint } from "../bench/order-rows.ts";
import { oncePerRun } from "../bench/remembered-run.ts";
import { happened, type Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Vessel } from "../bench/things.ts";
import type { Lookup } from "../model/lookup.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";
import { contradictsItsClaim, makesRoomForWrongStep } from "./claims.ts";
import { amountsMissing } from "./dose-misses.ts";
import { isRoundedToNothing } from "./units/dose-rounded-to-nothing.ts";
import { factorsInto, isOutside, judgedAt } from "./units/dose-windows.ts";
import { givingDiffers } from "./volumes/held-after.ts";

/** The volume that it moves, the amount that it draws for an order of another, the strength that it is said to give, or a powder whose volume nobody stated. */
type Fault = "volume" | "amount" | "giving" | "powder";

export interface Slips {
  /** Steps that are told as wrong, or would be if no step before them were, and what is wrong with them. */
  wrong: ReadonlyMap<StepRun, Fault>;
  /** The step works with what a wrong step before it made. */
  follows(step: StepRun): boolean;
  /** A wrong step has changed what the container holds, or how much of it. */
  reaches(vessel: Vessel): boolean;
  /** A step that moved another volume than stated fed the container. */
  changesVolumeOf(vessel: Vessel): boolean;
}

/** Of a run with unknown figures nothing is told for its figures, so that nothing follows from them. */
export const slipsOf = oncePerRun(workedOut);

const nothing: ReadonlySet<StepRun> = new Set();

function workedOut(run: Run): Slips {
  const wrong = new Map<StepRun, Fault>();
  const behind = new Map<StepRun, ReadonlySet<StepRun>>();
  const into = new Map<Vessel, Set<StepRun>>();
  const volumes = new Set<StepRun>();
  const add = (vessel: Vessel | undefined, steps: Iterable<StepRun>) => {
    if (!vessel) return;
    const known = into.get(vessel) ?? new Set();
    for (const step of steps) known.add(step);
    into.set(vessel, known);
  };
  if (!run.unknown) {
    const faultOf = faultsIn(run);
    for (const step of run.steps) {
      if (step.skipped) continue;
      const touched = step.movements.flatMap(({ from, to }) => [from, to]);
      const before = new Set(
        [...touched, step.result].flatMap((vessel) => [...((vessel && into.get(vessel)) ?? nothing)]),
      );
      behind.set(step, before);
      for (const { from, to } of step.movements) add(to, (from && into.get(from)) ?? nothing);
      // An injection of nothing, since nothing was drawn.
      if (step.movements.length === 0) {
        for (const thing of step.touched) if (thing.is === "vessel") add(step.result, into.get(thing) ?? nothing);
      }
      const fault = faultOf(step);
      if (!fault) continue;
      wrong.set(step, fault);
      if (fault === "volume" || fault === "amount") volumes.add(step);
      for (const { to } of step.movements) add(to, [step]);
      add(step.result, [step]);
    }
  }
  const reached = (vessel: Vessel) => into.get(vessel) ?? nothing;
  return {
    wrong,
    follows: (step) => (behind.get(step)?.size ?? 0) > 0,
    reaches: (vessel) => reached(vessel).size > 0,
    changesVolumeOf: (vessel) => [...reached(vessel)].some((step) => volumes.has(step)),
  };
}

/**
 * Whether the ordered dose of a drug is told as one that nobody would give. Of an order with a range, at both of its ends: what is left
 * out for some patients must not be said to be in order for the others.
 */
export function isDoseSlip(drug: string, run: Run): boolean {
  return doseSlips(run).has(drug);
}

/**
 * For a dose that is told as one that nobody would give: between how many times and how many times of it lie those that would be given.
 */
export function dosesWithin(drug: string, run: Run): { least: Exact; most: Exact | undefined } | undefined {
  const judged = judgedHere(run).find((each) => each.dose.drug === drug);
  return judged && factorsInto(judged);
}

const judgedHere = oncePerRun((run) =>
  judgedAt(run.recipe, run.point, run.doses, run.policy.tolerance.dose, (name) => run.setup.drugs.get(name)),
);

const doseSlips = oncePerRun(outsideEverywhere);

function outsideEverywhere(run: Run): ReadonlySet<string> {
  if (!isShownAsError("dose-outside-window", run.recipe, run.policy)) return new Set();
  const drugOf = (name: string) => run.setup.drugs.get(name);
  const { tolerance } = run.policy;
  const outside = (point: OrderPoint, doses: readonly OrderedDose[]) => {
    const judged = judgedAt(run.recipe, point, doses, tolerance.dose, drugOf);
    return new Set(judged.flatMap((each) => (isOutside(each) ? [each.dose.drug] : [])));
  };
  const here = outside(run.point, run.doses);
  if (here.size === 0 || !isRanged(run)) return here;
  const ends = endsOf(run.recipe).map((point) => outside(point, orderedDoses(run.recipe, point, noBands)));
  return new Set([...here].filter((drug) => ends.every((end) => end.has(drug))));
}

/** A dose by bands is not laid against the ends: which band it falls into is not looked up here. */
const noBands: Pick<Lookup, "find"> = { find: () => undefined };

/** Whether the order is for more than one value of a weight, an age, a surface or a lumen. */
export const isRanged = oncePerRun(({ recipe }) => endsOf(recipe).length > 1);

/** The step gives the ordered dose, and that is told. */
export function givesDoseSlip(step: StepRun, run: Run): boolean {
  return (
    asksForDose(step.slots as DoseSlots) &&
    (step.movements.some(({ liquid }) => liquid.drugs.some((drug) => isDoseSlip(drug, run))) || isRoundedAway(run))
  );
}

function isRoundedAway(run: Run): boolean {
  return isShownAsError("dose-rounded-to-nothing", run.recipe, run.policy) && run.doses.some(isRoundedToNothing);
}

/**
 * Of an order with a range a claim is wrong for everybody only where it is far off: for some patients it may fit, and what is told of them
 * must not be left out for the others.
 */
function isContradicted(step: StepRun, run: Run): boolean {
  if (!contradictsItsClaim(step, run)) return false;
  if (!isRanged(run)) return true;
  const { moved } = step;
  return step.claims.some(({ kind, from, to }) => {
    if (kind !== "moves" || !from.quantity || !to.quantity || !moved) return false;
    return moved.isAbove(inBase(to.quantity).times(twice)) || moved.times(twice).isBelow(inBase(from.quantity));
  });
}

const twice = Exact.of(2);

/** What is wrong with a step of this run; a fault that is not told as an error is none from which others follow. */
function faultsIn(run: Run): (step: StepRun) => Fault | undefined {
  const isTold = (name: string) => isShownAsError(name, run.recipe, run.policy);
  const [isClaimTold, isShortageTold, isPowderTold, isGivingTold] = [
    isTold("claim-differs"),
    isTold("too-few-containers"),
    isTold("displacement-ignored"),
    isTold("held-after-step-differs") && run.overfill === "label",
  ];
  const missed =
    isTold("dose-not-delivered") && !isRanged(run) ? amountsMissing(run, (drug) => isDoseSlip(drug, run)) : nothing;
  const withoutVolume = new Set(isPowderTold ? happened(run, "displacement-ignored").map((h) => h.step) : []);
  return (step) => {
    // The other step is told, and would be silent as one that follows from this.
    if (isClaimTold && makesRoomForWrongStep(step, run)) return undefined;
    if (isClaimTold && isContradicted(step, run)) return "volume";
    if (givesDoseSlip(step, run)) return "volume";
    if (missed.has(step)) return "amount";
    if (isShortageTold && isShort(step, run)) return "volume";
    if (withoutVolume.has(step)) return "powder";
    // What a powder gives is the same for every patient; what a dose is made up to is not.
    const isForAll = step.verb === "reconstitute" || !isRanged(run);
    return isGivingTold && isForAll && givingDiffers(step, run) ? "giving" : undefined;
  };
}

/** Fewer containers stand there than the step needs: what it moves is less than it asks for. */
export function isShort(step: StepRun, run: Run): boolean {
  if (isRanged(run) || !happened(run, "too-few-containers").some((h) => h.step === step)) return false;
  // A step that asks for more than stated beside it is wrong itself; no container is missing.
  return !step.claims.some(
    ({ kind, to }) =>
      kind === "moves" &&
      to.quantity?.unit.dimension.key === "volume" &&
      step.moved?.isAbove(inBase(to.quantity)) === true,
  );
}

/** The step asks for what is stated beside it, and the container holds less: it is the container that is told, not the figure. */
export function runsDry(step: StepRun, run: Run): boolean {
  if (!isShownAsError("draw-beyond-content", run.recipe, run.policy)) return false;
  return happened(run, "draw-beyond-content").some(
    (h) =>
      h.step === step &&
      step.claims.some(
        ({ kind, from, to }) =>
          kind === "moves" &&
          from.quantity?.unit.dimension.key === "volume" &&
          to.quantity?.unit.dimension.key === "volume" &&
          !h.data.asked.isBelow(inBase(from.quantity)) &&
          !h.data.asked.isAbove(inBase(to.quantity)),
      ),
  );
}
