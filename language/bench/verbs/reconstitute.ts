/** `reconstitute each of vials with 10 mL from wfi using syringe-20`. */

import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import type { Bench, Pressure } from "../bench.ts";
import { labelVolume } from "../dissolving.ts";
import { drawUp } from "../drawing.ts";
import { watchContent, wipedEachTime } from "../entering.ts";
import { noLiquid } from "../liquid.ts";
import { push } from "../pushing.ts";
import { manner, showEach, showVolume } from "../spoken.ts";
import type { Vessel } from "../things.ts";
import { verb } from "../verb.ts";
import { targets } from "./inject.ts";

export const reconstitute = verb({
  word: "reconstitute",
  form: "[<each?:each of>] <vials:name> with <volume:measure> from <source:name> using <syringe:name> [at <pressure?:equal pressure|negative pressure>]",
  about: "Adds liquid to a powder vial. What comes of it follows from the label (`gives`) or the displacement.",
  moves: true,
  act(bench, slots, run) {
    // A set is emptied one after another: one ampoule of water for each vial is one set beside another.
    const sources = bench.vessels([slots.source]);
    const syringe = bench.syringe(slots.syringe);
    if (slots.volume.quantity?.unit.dimension.key !== "volume") {
      bench.unknown = true;
      return;
    }
    const volume = inBase(slots.volume.quantity);
    const wipe = wipedEachTime(sources);
    for (const vial of targets(bench, slots.vials, slots.each)) {
      if (sources.length === 0 || !syringe) return;
      wipe();
      const before: Exact = run.moved ?? Exact.zero;
      // What the step says of pressure is said of the powder vial; an opened ampoule takes air by itself.
      const air = sources[0]!.kind === "ampoule" ? undefined : "equal pressure";
      const byLabel = labelVolume(vial)?.equals(volume) === true;
      const ask = { volume, stated: slots.volume, byLabel };
      const moved = drawUp(bench, sources, syringe, ask, slots.volume, air);
      pushOntoPowder(bench, vial, syringe, moved, slots.volume, slots.pressure?.choice);
      run.moved = before.plus(moved);
      run.result = vial;
    }
  },
  sentence: (slots, run) =>
    `Add ${(slots.each ? showEach(run) : showVolume(run)) || slots.volume.written} from ${slots.source.name} to ${slots.each ? "each of " : ""}${slots.vials.name} with ${slots.syringe.name}${manner(slots)}.`,
  cautions: [
    {
      text: "Let the same volume of air out before the needle leaves, unless the vial is packed under vacuum.",
      rows: ["recon-air-balance"],
      when: "needle-in-vial",
    },
    { text: "Wipe the port again before each entry.", rows: ["port-disinfect-dry"], when: "port-again" },
    { text: "Powder takes up room: the final volume is more than what is added.", rows: ["powder-displacement"] },
  ],
});

function pushOntoPowder(
  bench: Bench,
  vial: Vessel,
  syringe: Vessel,
  moved: Exact,
  spot: Spot,
  pressure: Pressure,
): void {
  if (!vial.powder) {
    if (watchContent(bench, vial, spot)) bench.note("reconstituted-no-powder", spot, { vessel: vial });
    // What would come of it is anybody's guess: nothing after it is judged.
    syringe.liquid = noLiquid;
    bench.unknown = true;
    return;
  }
  if (moved.isPositive()) push(bench, syringe, vial, moved, spot, pressure);
}
