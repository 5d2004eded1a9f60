/** `fill pump with 200 mL from bag using syringe`: an infusor or cassette. */

import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { verb } from "../verb.ts";

export const fill = verb({
  word: "fill",
  form: "<target:name> with <volume:measure> from <source:name> using <syringe:name>",
  about: "Fills an infusor or cassette, in as many syringe loads as it takes.",
  act(bench, slots, run) {
    const target = bench.vessel(slots.target);
    const source = bench.vessel(slots.source);
    const syringe = bench.syringe(slots.syringe);
    if (!target || !source || !syringe || slots.volume.quantity?.unit.dimension.key !== "volume") return;
    const wanted = inBase(slots.volume.quantity);
    const load = syringe.capacity ?? wanted;
    let rest = wanted;
    // Syringe, source and target stay joined until it is full: one entry, however many loads it takes.
    const wiped = { source: source.disinfected, target: target.disinfected };
    while (rest.isPositive() && load.isPositive()) {
      const part = Exact.least(rest, load);
      source.disinfected = wiped.source;
      target.disinfected = wiped.target;
      const moved = bench.draw([source], syringe, { volume: part, stated: undefined }, slots.volume, undefined);
      if (!moved.isPositive()) break;
      bench.push(syringe, target, moved, slots.target, undefined);
      target.unmixed = undefined;
      rest = rest.minus(moved);
    }
    run.moved = wanted.minus(rest);
    run.result = target;
  },
  sentence: (slots) =>
    `Fill ${slots.target.name} with ${slots.volume.written} from ${slots.source.name} with ${slots.syringe.name}.`,
});
