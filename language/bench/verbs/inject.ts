/** `inject syringe into bag`, `inject 5 mL from syringe into each of bags`. */

import type { NameSlot, Spot } from "../../model/slots.ts";
import { askedVolume } from "../asked.ts";
import type { Bench } from "../bench.ts";
import { drawUp } from "../drawing.ts";
import { push } from "../pushing.ts";
import { partReading } from "../reading.ts";
import { asAsked, manner, showEach, showVolume } from "../spoken.ts";
import type { Vessel } from "../things.ts";
import { verb } from "../verb.ts";

/** Where liquid goes: one container, or each of a set, which must be said. */
export function targets(bench: Bench, name: NameSlot, each: Spot | undefined): Vessel[] {
  const found = bench.vessels([name]);
  if (found.length > 1 && !each) {
    bench.note("not-each-of", name, { name: name.name, count: found.length, each: true });
    // No figure is judged after this; gone on with as if it were said, so that nothing else is told for want of the words.
    bench.unknown = true;
  }
  return found;
}

export const inject = verb({
  word: "inject",
  form: "[(<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:dose|all> | <figure?:dose> of <drug?:name>) from] <syringe:name> into [<each?:each of>] <target:name> [at <pressure?:equal pressure|negative pressure>]",
  about: "Pushes what is in a syringe, or a part of it, into a container. Into a set it says `each of`.",
  moves: true,
  act(bench, slots, run) {
    const source = bench.vessel(slots.syringe);
    const into = targets(bench, slots.target, slots.each);
    if (!source) return;
    const isSyringe = source.kind === "syringe" || source.kind === "prefilled-syringe";
    for (const target of into) {
      run.result = target;
      if (!slots.amount && !slots.figure) {
        push(bench, source, target, source.liquid.volume, slots.syringe, slots.pressure?.choice);
        continue;
      }
      const ask = askedVolume(bench, slots, [source]);
      if (!ask) return;
      const spot = slots.amount ?? slots.syringe;
      if (isSyringe) push(bench, source, target, partReading(bench, source, ask, spot), spot, slots.pressure?.choice);
      else drawUp(bench, [source], target, ask, spot, slots.pressure?.choice);
    }
  },
  sentence(slots, run) {
    const volume = slots.each ? showEach(run) : showVolume(run);
    const isPart = slots.amount !== undefined || slots.figure !== undefined;
    const what = isPart ? `${asAsked(slots)} from ${slots.syringe.name}` : slots.syringe.name;
    const shown = volume && volume !== slots.amount?.written ? ` (${volume})` : "";
    return `Inject ${what}${shown} into ${slots.each ? "each of " : ""}${slots.target.name}${manner(slots)}.`;
  },
  cautions: [
    { text: "Squeeze the bag before and after: look for leaks.", rows: ["squeeze-test"], when: "bag" },
    { text: "Never add to a container that is already running.", rows: ["no-add-while-hanging"], when: "bag" },
  ],
});
