/**
 * An ordered dose of which the steps bring nothing at all is told as that. What its volume alone makes wrong, the volume withdrawn for it
 * and the strength of what else is in the container, only repeats it: left out where the figures are right once the missing volume is
 * there, and told where they are not.
 */
import { oncePerRun } from "../bench/remembered-run.ts";
import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import type { Exact } from "../quantities/exact.ts";
import { isTold } from "./consequences.ts";
import { isRanged } from "./slips.ts";
import { orderedAmount } from "./volumes/ordered.ts";

/** By the finished container, mL that the missing doses of its order take up; none where one of them is not known. */
export const missingVolumes = oncePerRun((run): ReadonlyMap<Vessel, Exact> => {
  const found = new Map<Vessel, Exact>();
  // Of an order with a range a finding is left out for all of it or not at all.
  if (run.unknown || isRanged(run) || !isTold("dose-not-delivered", run)) return found;
  for (const vessel of run.finals) {
    const lacking = run.doses.filter(({ drug }) => {
      const held = vessel.liquid.amounts.get(drug);
      return (!held || held.isZero()) && orderedAmount(drug, vessel, run)?.isPositive();
    });
    const volumes = lacking.map(({ drug }) => volumeOf(drug, vessel, run));
    const [first, ...others] = volumes.filter((each) => each !== undefined);
    if (first && others.length + 1 === volumes.length)
      found.set(
        vessel,
        others.reduce((a, b) => a.plus(b), first),
      );
  }
  return found;
});

/** mL of the product on the tray that hold the ordered dose; undefined where there are several products of it, or it is a powder still. */
function volumeOf(drug: string, vessel: Vessel, run: Run): Exact | undefined {
  const wanted = orderedAmount(drug, vessel, run);
  const [group, second] = [...run.groups.values()].filter(
    ({ item }) => item?.kind === "stock" && item.facts.one("drug")?.slots.drug.name === drug,
  );
  if (!wanted || !group || second) return undefined;
  const [first] = group.things.flatMap((thing) => (thing.is === "vessel" ? [thing] : []));
  const drawn = run.steps.flatMap((step) => step.movements).find((m) => m.from === first && m.how === "draw")?.liquid;
  const liquid = drawn ?? first?.liquid;
  const held = liquid?.amounts.get(drug);
  return liquid && held?.isPositive() ? wanted.times(liquid.volume).over(held) : undefined;
}
