/** `replace filter on syringe with needle`. */
import { verb } from "../verb.ts";
import { putOn } from "./attach.ts";
import { takeOff } from "./remove.ts";

export const replace = verb({
  word: "replace",
  form: "<part:name> on <syringe:name> with <other:name>",
  about: "Changes what is on a syringe, such as the filter needle for a plain needle before injecting.",
  act(bench, slots) {
    for (const vessel of bench.vessels([slots.syringe], "a syringe")) {
      // Of several of one name a fresh one, and not the one that comes off.
      const other = bench.part(slots.other);
      const before = takeOff(bench, slots.part, vessel);
      if (other && other === before)
        bench.note("wrong-kind-of-thing", slots.other, {
          thing: other,
          needed: "another than the one that is taken off",
        });
      if (other) putOn(bench, other, vessel, slots.other);
      else vessel.unknownParts.push(slots.other.name);
    }
  },
  sentence: (slots) => `Replace ${slots.part.name} on ${slots.syringe.name} with ${slots.other.name}.`,
  cautions: [
    {
      text: "Never push through the filter that was drawn through.",
      rows: ["amp-filter-one-way"],
      when: "filter",
    },
  ],
});
