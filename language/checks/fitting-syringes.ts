/** Syringes that may stand in the place of one that does not fit. */

import type { Run } from "../bench/run.ts";
import type { Vessel } from "../bench/things.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";

/** The most that a syringe holds after any step, or takes in within one: what takes its place must have room for that too. */
export function mostHeld(syringe: Vessel, { steps }: Run): Exact {
  const held = steps.flatMap(({ after, movements }) => [
    after.get(syringe)?.volume ?? Exact.zero,
    ...movements.filter((m) => m.to === syringe).map((m) => m.moved),
  ]);
  return Exact.greatest(Exact.zero, ...held);
}

/** Declared syringes that measure a volume well and have room for `most`, the smallest first. */
export function fittingSyringes(volume: Exact, most: Exact, lookup: Lookup, policy: Policy): string[] {
  const room = Exact.greatest(volume, most);
  return lookup
    .names("device")
    .flatMap((name) => lookup.find("device", name) ?? [])
    .filter((d) => d.facts.one("kind")?.slots.kind.choice === "syringe")
    .flatMap((d) => {
      const capacity = d.facts.one("capacity")?.slots.capacity.quantity;
      const marks = d.facts.one("graduation")?.slots.interval.quantity;
      return capacity && marks ? [{ name: d.name.name, holds: inBase(capacity), marks: inBase(marks) }] : [];
    })
    .filter(
      (d) => room.isAtMost(d.holds.times(policy.largestShare)) && volume.isAtLeast(d.holds.times(policy.smallestShare)),
    )
    .filter((d) => volume.toNearest(d.marks).equals(volume))
    .sort((a, b) => a.holds.compare(b.holds))
    .map((d) => d.name);
}
