/** A container that was labelled or sealed is finished: what still goes in is noted, and what was seen in it no longer holds. */
import type { Spot } from "../model/slots.ts";
import type { Bench } from "./bench.ts";
import type { Vessel } from "./things.ts";

/** To be called as liquid goes in, by whatever way. */
export function watchFinished(bench: Bench, target: Vessel, spot: Spot): void {
  if (target.sealed) bench.note("touched-after-seal", spot, { vessel: target, since: target.sealed });
  if (target.labelled && bench.isFinal(target))
    bench.note("labelled-before-filled", spot, { vessel: target, since: target.labelled });
  target.inspected = undefined;
}
