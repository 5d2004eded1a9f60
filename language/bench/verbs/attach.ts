/** `attach needle to syringe`. */

import type { Spot } from "../../model/slots.ts";
import type { Bench } from "../bench.ts";
import { isSeated } from "../fitting-parts.ts";
import type { Part, Vessel } from "../things.ts";
import { verb } from "../verb.ts";

/**
 * Puts a part on a syringe or bag, noting when it is already somewhere.
 *
 * @param spot where the part is named
 * @param seat where the container is named
 */
export function putOn(bench: Bench, part: Part, on: Vessel, spot: Spot, seat = spot): void {
  if (part.on) {
    bench.note("already-attached", spot, { syringe: part.on, part, to: on });
    return;
  }
  // The syringe that was meant stays bare.
  if (!isSeated(bench, part, on, seat)) return;
  const by = onTip(bench, on);
  if (by) bench.note("tip-occupied", spot, { syringe: on, by, part });
  part.on = on;
  on.attached.push(part);
}

/** What closes the tip of a syringe, so that nothing more goes on; a syringe filter has an outlet of its own. */
export function onTip(bench: Bench, on: Vessel): Part | undefined {
  if (on.kind !== "syringe" && on.kind !== "prefilled-syringe") return undefined;
  const last = on.attached.at(-1);
  if (last && last.kind !== "syringe-filter") return last;
  for (const group of bench.setup.groups.values()) {
    for (const thing of group.things) if (thing.is === "part" && thing.joins === on) return thing;
  }
  return undefined;
}

export const attach = verb({
  word: "attach",
  form: "<part:name> to <syringe:name>",
  about: "Puts a needle, filter or other part on a syringe.",
  act(bench, slots) {
    const part = bench.part(slots.part);
    for (const vessel of bench.vessels([slots.syringe], "a syringe")) {
      const next = part?.on ? bench.part(slots.part) : part;
      if (next) putOn(bench, next, vessel, slots.part, slots.syringe);
      else vessel.unknownParts.push(slots.part.name);
    }
  },
  sentence: (slots) => `Attach ${slots.part.name} to ${slots.syringe.name}.`,
  cautions: [
    {
      text: "Peel the wrapper back at the edge of the cabinet; push nothing through the paper.",
      rows: ["open-at-edge"],
    },
    { text: "Touch neither the tip nor the hub.", rows: [] },
  ],
});
