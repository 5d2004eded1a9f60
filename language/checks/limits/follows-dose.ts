/** Whether a limit is broken only because the dose or the volume is another than ordered, which is told as that. */
import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { agrees } from "../agreement.ts";
import { isTold } from "../consequences.ts";
import { dosesWithin, isDoseSlip, isRanged } from "../slips.ts";
import { orderedAmount, orderedVolume } from "../volumes/ordered.ts";

/** Where a figure stands to a limit that it does not keep to. */
export type Side = "above" | "below" | "between";

/**
 * @param of what is limited: a concentration rests on amount and volume, a rate on the amount alone
 * @param sideAt where so many times the figure found stands to the limit; undefined where it keeps to it
 */
export function followsDose(
  drug: string,
  vessel: Vessel,
  run: Run,
  of: "concentration" | "rate",
  sideAt: (factor: Exact) => Side | "unknown" | undefined,
): boolean {
  if (isDoseSlip(drug, run)) return isRanged(run) || mayFitWithin(drug, run, sideAt);
  // For some patients the dose may be right, and what is left out for the others must not be said to be in order for them.
  if (isRanged(run)) return false;
  const byDose = doseFactor(drug, vessel, run);
  const byVolume = of === "concentration" ? volumeFactor(vessel, run) : undefined;
  if (!byDose && !byVolume) return false;
  return sideAt((byDose ?? Exact.one).times(byVolume ?? Exact.one)) === undefined;
}

/** Not where the least dose in its window is still too much for the limit, or the greatest too little: no dose mends that. */
function mayFitWithin(drug: string, run: Run, sideAt: (factor: Exact) => Side | "unknown" | undefined): boolean {
  const within = dosesWithin(drug, run);
  if (!within) return true;
  const isTooMuch = within.least.isPositive() && sideAt(within.least) === "above";
  const isTooLittle = within.most !== undefined && sideAt(within.most) === "below";
  return !isTooMuch && !isTooLittle;
}

function doseFactor(drug: string, vessel: Vessel, run: Run): Exact | undefined {
  const held = vessel.liquid.amounts.get(drug);
  const wanted = orderedAmount(drug, vessel, run);
  if (!held?.isPositive() || !wanted?.isPositive() || !isTold("dose-not-delivered", run)) return undefined;
  const isOff = held.minus(wanted).abs().isAbove(wanted.times(run.policy.tolerance.dose));
  return isOff ? wanted.over(held) : undefined;
}

function volumeFactor(vessel: Vessel, run: Run): Exact | undefined {
  const { liquid } = vessel;
  const ordered = orderedVolume(run, vessel);
  const told = isTold("final-volume-differs", run) || isTold("diluent-not-delivered", run);
  if (!ordered?.isPositive() || run.overfill !== "label" || !told) return undefined;
  return agrees(liquid.volume, ordered) ? undefined : liquid.volume.over(ordered);
}
