/** `transfer 500 mL from bag to empty using tubing`: larger volumes through a set. */

import { Exact } from "../../quantities/exact.ts";
import { askedVolume } from "../asked.ts";
import { pierce } from "../entering.ts";
import { watchUse } from "../fitting-parts.ts";
import { takePart } from "../liquid.ts";
import { receive } from "../pushing.ts";
import { showEach, showVolume } from "../spoken.ts";
import { enterSource, letOut } from "../through-tubing.ts";
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

export const transfer = verb({
  word: "transfer",
  form: "(<amount?:measure> [of <ion?:name>] [as <as?:name>] | <figure?:dose|diluent-volume|all> | <figure?:dose> of <drug?:name>) from <source:name> to [<each?:each of>] <target:name> using <device:name>",
  about: "Moves liquid from one container to another through tubing or a pump.",
  moves: true,
  act(bench, slots, run) {
    const source = bench.vessel(slots.source);
    const device = bench.part(slots.device);
    if (device) watchUse(bench, device, "leadsOver", slots.device);
    for (const target of targets(bench, slots.target, slots.each)) {
      if (!source) return;
      const ask = askedVolume(bench, slots, [source]);
      if (!ask) return;
      // The tubing stays in the source while it serves a set.
      if (run.movements.length === 0) enterSource(bench, source, slots.source);
      const out = letOut(bench, source, ask.volume, { at: slots.amount, spot: slots.source });
      if (!out) return;
      const { taken, moved } = out;
      pierce(bench, target, slots.target);
      // What fills an empty tube is missing in the first container that it leads to.
      const stays = run.movements.length === 0 ? bench.options.errors?.stays(run) : undefined;
      const arrives = stays ? takePart(taken, moved.minus(Exact.least(stays, moved))).taken : taken;
      receive(bench, target, arrives, slots.target);
      run.moved = (run.moved ?? Exact.zero).plus(moved);
      run.result = target;
      run.movements.push({
        how: "transfer",
        from: source,
        to: target,
        asked: ask.volume,
        moved,
        liquid: arrives,
        spot: slots.target,
      });
    }
  },
  sentence: (slots, run) =>
    `Transfer ${slots.each ? showEach(run) : showVolume(run)} from ${slots.source.name} to ${slots.each ? "each of " : ""}${slots.target.name} with ${slots.device.name}.`,
  cautions: [
    { text: "Flush the common line between components that do not go together.", rows: ["flush-between-incompatible"] },
  ],
});
