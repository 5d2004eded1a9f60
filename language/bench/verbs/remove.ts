/** `remove filter from syringe`. */

import type { NameSlot } from "../../model/slots.ts";
import type { Bench } from "../bench.ts";
import type { Part, Vessel } from "../things.ts";
import { verb } from "../verb.ts";

/** Takes the named part off; noted when it is not there. */
export function takeOff(bench: Bench, name: NameSlot, from: Vessel): Part | undefined {
  const part = from.attached.find((p) => p.name === name.name);
  if (!part) {
    const named = bench.part(name);
    // A connector hangs on both syringes; taken off the one, it stays on the other.
    if (named?.joins === from) {
      if (!bench.current.touched.includes(named)) bench.current.touched.push(named);
      named.joins = undefined;
      return named;
    }
    // What hangs there under a name that nobody knows may be this.
    const unknown = from.unknownParts.pop();
    if (named && unknown === undefined) bench.note("not-attached", name, { syringe: from, part: named });
    return undefined;
  }
  if (!bench.current.touched.includes(part)) bench.current.touched.push(part);
  from.attached = from.attached.filter((p) => p !== part);
  part.on = undefined;
  part.joins = undefined;
  return part;
}

export const remove = verb({
  word: "remove",
  form: "<part:name> from <syringe:name>",
  about: "Takes a needle, filter or other part off a syringe.",
  act(bench, slots) {
    for (const vessel of bench.vessels([slots.syringe], "a syringe")) takeOff(bench, slots.part, vessel);
  },
  sentence: (slots) => `Remove ${slots.part.name} from ${slots.syringe.name}.`,
  cautions: [{ text: "Do not recap by hand; into the sharps box unless it is kept for the check.", when: "sharp" }],
});
