/** `pool vials into bag using syringe`: all that several containers give goes into one. */
import { Exact } from "../../quantities/exact.ts";
import { availableIn, drawUp } from "../drawing.ts";
import { push } from "../pushing.ts";
import { manner, showVolume, spoken } from "../spoken.ts";
import { verb } from "../verb.ts";

export const pool = verb({
  word: "pool",
  form: "<from:names> into <target:name> using <syringe:name> [at <pressure?:equal pressure|negative pressure>]",
  about: "Collects the content of several containers in one.",
  moves: true,
  act(bench, slots, run) {
    const syringe = bench.syringe(slots.syringe);
    const target = bench.vessel(slots.target);
    if (!syringe || !target) return;
    const wiped = target.disinfected;
    for (const vessel of bench.vessels(slots.from)) {
      const held = availableIn(vessel);
      if (!held.isPositive()) continue;
      target.disinfected = wiped; // one operation at one wiped port
      const before: Exact = run.moved ?? Exact.zero;
      const moved = drawUp(
        bench,
        [vessel],
        syringe,
        { volume: held, stated: undefined, all: true },
        slots.from[0]!,
        slots.pressure?.choice,
      );
      push(bench, syringe, target, moved, slots.target, slots.pressure?.choice);
      target.unmixed = undefined;
      run.moved = before.plus(moved);
    }
    target.unmixed = run;
    run.result = target;
  },
  sentence: (slots, run) =>
    `Pool ${spoken(slots.from)} in ${slots.target.name} with ${slots.syringe.name}${manner(slots)}: ${showVolume(run)}.`,
  cautions: [{ text: "Pool within one session only; discard what is left.", rows: ["sdv-single"] }],
});
