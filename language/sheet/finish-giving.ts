/**
 * When giving must be finished, where the site's limits speak of its beginning: a limit of sterility is met once it has begun, but a drug
 * that is known to be stable for 24 h is not known to be so in the last of an infusion that was begun after 23.
 *
 * Sources: USP General Chapter <797> (2023), beyond-use dates do not limit the time of administration; that the stability of the drug
 * does is common practice.
 */
import type { UseLimit } from "../bench/beyond-use.ts";
import { orderedGiving } from "../bench/rates.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import { type DateFault, isDateFault } from "../model/dates.ts";
import { compareMoments, instantOf, type Moment } from "../model/moments.ts";
import { Exact } from "../quantities/exact.ts";
import type { Quantity } from "../quantities/quantity.ts";

export interface Finish {
  by: Moment;
  /** The drug that is known to be stable until then. */
  drug: string;
}

/**
 * @param begin the latest moment at which giving begins
 * @param after the moment so long after the preparation
 * @returns undefined where an infusion begun at the last moment ends in time, or the order does not say how long it runs
 */
export function finishGiving(
  run: Run,
  vessel: Vessel,
  limits: readonly UseLimit[],
  begin: Moment,
  after: (time: Quantity) => Moment | DateFault,
): Finish | undefined {
  const giving = orderedGiving(run, vessel);
  if (!giving) return undefined;
  const hours = giving.volume.over(giving.rate.value);
  const ends = instantOf(begin) + Number(hours.times(secondsInHour).floor().toText());
  let first: Finish | undefined;
  for (const { kind, time, name } of limits) {
    if (kind !== "stability" || !time) continue;
    const by = after(time);
    if (isDateFault(by) || instantOf(by) >= ends) continue;
    if (!first || compareMoments(by, first.by) < 0) first = { by, drug: name };
  }
  return first;
}

const secondsInHour = Exact.of(3600);
