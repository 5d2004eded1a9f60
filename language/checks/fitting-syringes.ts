/** Declared syringes that hold a volume and measure it well, the smallest first. */

import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import type { Exact } from "../quantities/exact.ts";
import { inBase } from "../quantities/quantity.ts";

export function fittingSyringes(volume: Exact, lookup: Lookup, policy: Policy): string[] {
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
      (d) =>
        volume.isAtMost(d.holds.times(policy.largestShare)) && volume.isAtLeast(d.holds.times(policy.smallestShare)),
    )
    .filter((d) => volume.toNearest(d.marks).equals(volume))
    .sort((a, b) => a.holds.compare(b.holds))
    .map((d) => d.name);
}
