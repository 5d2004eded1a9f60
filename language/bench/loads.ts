/** A volume larger than the syringe goes over in several loads: one entry at each end, however many it takes. */
import type { Spot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Ask, Bench, Pressure } from "./bench.ts";
import { drawUp } from "./drawing.ts";
import { wipedEachTime } from "./entering.ts";
import { inLines } from "./lines.ts";
import { push } from "./pushing.ts";
import type { Vessel } from "./things.ts";

export interface Loads {
  from: readonly Vessel[];
  syringe: Vessel;
  to: Vessel;
  ask: Ask;
  /** Words that the volumes are told at, and those of the container that is filled. */
  drawn: Spot;
  filled: Spot;
  pressure: Pressure;
}

/** @returns mL that went over */
export function moveInLoads(bench: Bench, { from, syringe, to, ask, drawn, filled, pressure }: Loads): Exact {
  const load = syringe.capacity ?? ask.volume;
  // Syringe, sources and target stay joined until all is over.
  const wipe = wipedEachTime([...from, to]);
  const wasEmpty = !to.liquid.volume.isAbove(inLines(to));
  let rest = ask.volume;
  while (rest.isPositive() && load.isPositive()) {
    wipe();
    const isLast = rest.isAtMost(load);
    const lastLoad = isLast && rest !== ask.volume;
    const part: Ask =
      isLast && !lastLoad
        ? ask
        : { volume: isLast ? rest : load, stated: undefined, lastLoad, all: isLast && ask.all === true };
    const moved = drawUp(bench, from, syringe, part, drawn, pressure);
    if (!moved.isPositive()) break;
    push(bench, syringe, to, moved, filled, pressure);
    // One load after another of the same is no second addition.
    if (wasEmpty || rest.isAbove(moved)) to.unmixed = undefined;
    rest = rest.minus(moved);
    if (moved.isBelow(part.volume)) break;
  }
  bench.current.moved = ask.volume.minus(rest);
  return bench.current.moved;
}
