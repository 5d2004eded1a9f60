/** `attach needle to syringe`. */

import type { Spot } from "../../model/slots.ts";
import type { Bench } from "../bench.ts";
import type { Part, Vessel } from "../things.ts";
import { verb } from "../verb.ts";

/** Puts a part on a syringe or bag, noting when it is already somewhere. */
export function putOn(bench: Bench, part: Part, on: Vessel, spot: Spot): void {
  if (part.on) {
    bench.note("already-attached", spot, { syringe: part.on, part, to: on });
    return;
  }
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

/** A stopper may take one to let air in; these hold none. */
const takesNoNeedle: ReadonlySet<Vessel["kind"]> = new Set(["ampoule", "bag", "empty-bag", "infusor", "cassette"]);

function isOfHub({ kind }: Part): boolean {
  return kind === "needle" || kind === "filter-needle" || kind === "filter-straw";
}

export const attach = verb({
  word: "attach",
  form: "<part:name> to <syringe:name>",
  about: "Puts a needle, filter or other part on a syringe.",
  act(bench, slots) {
    const part = bench.part(slots.part);
    for (const vessel of bench.vessels([slots.syringe], "a syringe")) {
      const next = part?.on ? bench.part(slots.part) : part;
      // The syringe that was meant stays bare.
      if (next && isOfHub(next) && takesNoNeedle.has(vessel.kind)) {
        bench.note("wrong-kind-of-thing", slots.syringe, { thing: vessel, needed: `a syringe for ${next.name}` });
        continue;
      }
      if (next) putOn(bench, next, vessel, slots.part);
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
