/** `pass syringe through filter into bag`. */
import { watchUse } from "../fitting-parts.ts";
import { push } from "../pushing.ts";
import { verb } from "../verb.ts";
import { putOn } from "./attach.ts";

export const pass = verb({
  word: "pass",
  form: "<syringe:name> through <filter:name> into <target:name>",
  about: "Pushes what is in a syringe through a filter into a container.",
  moves: true,
  act(bench, slots, run) {
    const syringe = bench.syringe(slots.syringe);
    const target = bench.vessel(slots.target);
    const filter = bench.part(slots.filter);
    if (!syringe || !target) return;
    if (!filter) syringe.unknownParts.push(slots.filter.name);
    else {
      watchUse(bench, filter, "filters", slots.filter);
      if (filter.on !== syringe) putOn(bench, filter, syringe, slots.filter);
    }
    push(bench, syringe, target, syringe.liquid.volume, slots.syringe, undefined);
    run.result = target;
  },
  sentence: (slots) => `Push ${slots.syringe.name} through ${slots.filter.name} into ${slots.target.name}.`,
  cautions: [{ text: "A filter serves one way only.", rows: ["amp-filter-one-way"] }],
});
