/** Whether a limit is broken by the rounding at a syringe's marks alone: what was ordered would keep to it. */
import type { HappeningData } from "../../bench/happenings.ts";
import { happened, type Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Exact } from "../../quantities/exact.ts";
import { orderedAmount } from "../volumes/ordered.ts";

export interface ReadAtTheMark {
  /** What the order would give, for each one of what is given. */
  share: Exact;
  /** The draw that was rounded up. */
  draw: HappeningData["not-on-graduation"];
}

/** @param fits whether so many times the figure found would keep to the limit */
export function readAtTheMark(
  drug: string,
  vessel: Vessel,
  run: Run,
  fits: (factor: Exact) => boolean,
): ReadAtTheMark | undefined {
  const roundings = happened(run, "not-on-graduation");
  if (roundings.length === 0) return undefined;
  const up = roundings.find(
    ({ step, data }) => data.reading.isAbove(data.asked) && step.movements.some((m) => m.liquid.drugs.includes(drug)),
  );
  const held = vessel.liquid.amounts.get(drug);
  const wanted = orderedAmount(drug, vessel, run);
  if (!up || !held?.isPositive() || !wanted || !held.isAbove(wanted)) return undefined;
  const share = wanted.over(held);
  return fits(share) ? { share, draw: up.data } : undefined;
}
