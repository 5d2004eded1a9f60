/** One slip that is met at several steps is told once: at the first of them, with the numbers of the others. */
import type { StepRun } from "../bench/step-run.ts";

export interface ToldOnce<H> {
  first: H;
  /** Further steps at which it is met, each once. */
  more: readonly StepRun[];
}

/** @param isSame whether two happenings come of one slip */
export function toldOnce<H extends { step: StepRun }>(
  found: readonly H[],
  isSame: (one: H, other: H) => boolean,
): ToldOnce<H>[] {
  const slips: { first: H; more: StepRun[] }[] = [];
  for (const each of found) {
    const slip = slips.find(({ first }) => isSame(first, each));
    if (!slip) slips.push({ first: each, more: [] });
    else if (slip.first.step !== each.step && !slip.more.includes(each.step)) slip.more.push(each.step);
  }
  return slips;
}
