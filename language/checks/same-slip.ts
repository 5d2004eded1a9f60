/** One slip that is met at several steps is told once: at the first of them, with the numbers of the others. */
import type { StepRun } from "../bench/step-run.ts";
import type { Vessel } from "../bench/things.ts";
import type { Spot } from "../model/slots.ts";

export interface SlipAtSteps<H> {
  first: H;
  /** Further steps at which it is met, each once. */
  more: readonly StepRun[];
}

/** @param isSame whether two happenings come of one slip */
export function bySlip<H extends { step: StepRun }>(
  found: readonly H[],
  isSame: (one: H, other: H) => boolean,
): SlipAtSteps<H>[] {
  const slips: { first: H; more: StepRun[] }[] = [];
  for (const each of found) {
    const slip = slips.find(({ first }) => isSame(first, each));
    if (!slip) slips.push({ first: each, more: [] });
    else if (slip.first.step !== each.step && !slip.more.includes(each.step)) slip.more.push(each.step);
  }
  return slips;
}

interface OfContainer {
  step: StepRun;
  spot: Spot;
  /** `since`: the step from which on it should not have happened. */
  data: { vessel: Vessel; since: StepRun };
}

/** Once for each container and each step since which it is finished. */
export function oncePerContainer(found: readonly OfContainer[]) {
  const slips = bySlip(found, (one, { data }) => one.data.vessel === data.vessel && one.data.since === data.since);
  return slips.map(({ first: { spot, step, data }, more }) => ({ at: spot, step, more, ...data }));
}
