/** `reconstitute each of vials with 10 mL from wfi using syringe-20`. */

import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, volumeOf } from "../../quantities/quantity.ts";
import type { Bench } from "../bench.ts";
import { dissolvedVolume } from "../dissolved-volume.ts";
import { drawUp } from "../drawing.ts";
import { watchContent, wipedEachTime } from "../entering.ts";
import { type Liquid, noLiquid, pour, unfiltered } from "../liquid.ts";
import { push } from "../pushing.ts";
import { manner, showEach, showVolume } from "../spoken.ts";
import type { StepRun } from "../step-run.ts";
import type { Vessel } from "../things.ts";
import { verb } from "../verb.ts";
import { mayVent } from "../vessels.ts";
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
      dissolveInto(bench, vial, syringe, moved, slots.volume, slots.pressure?.choice, run);
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

function dissolveInto(
  bench: Bench,
  vial: Vessel,
  syringe: Vessel,
  moved: Exact,
  spot: Spot,
  pressure: "equal pressure" | "negative pressure" | undefined,
  run: StepRun,
): void {
  const { powder } = vial;
  if (!powder) {
    if (watchContent(bench, vial, spot)) bench.note("reconstituted-no-powder", spot, { vessel: vial });
    // What would come of it is anybody's guess: nothing after it is judged.
    syringe.liquid = noLiquid;
    bench.unknown = true;
    return;
  }
  if (!moved.isPositive()) return;
  watchLabel(bench, vial, syringe.liquid, moved, spot);
  push(bench, syringe, vial, moved, spot, pressure);
  const vacuum = vial.stock?.facts.one("vacuum")?.slots.answer.choice === "yes";
  if (vacuum) vial.pressure = Exact.zero;
  else if (vial.pressure.isPositive() && !mayVent(syringe) && pressure === undefined) {
    bench.note("vial-under-pressure", spot, { vessel: vial, volume: vial.pressure, cause: "diluent" });
  }
  const whole = dissolvedVolume(bench, vial, moved, spot);
  const added: Liquid = {
    volume: whole.minus(moved),
    amounts: new Map([[powder.drug, powder.amount]]),
    fluids: new Map(),
    drugs: [powder.drug],
    stocks: vial.stock ? [vial.stock.name.name] : [],
    glass: false,
    pores: unfiltered,
  };
  vial.liquid = pour(vial.liquid, added);
  vial.powder = undefined;
  vial.undissolved = run;
  vial.unmixed = undefined;
  vial.yields = withdrawableAfter(vial, moved) ?? vial.liquid.volume;
  vial.yieldsOf = vial.liquid.stocks.length;
}

/** mL that the label lets out again; it speaks of its own volume only, so that after another nobody knows better than all of it. */
function withdrawableAfter(vial: Vessel, moved: Exact): Exact | undefined {
  const meant = labelVolume(vial);
  if (meant && !meant.equals(moved)) return undefined;
  return volumeOf(vial.stock?.reconstitute?.one("withdrawable")?.slots.volume.quantity);
}

/** mL that the label of a powder wants added; undefined where it says nothing. */
function labelVolume(vial: Vessel): Exact | undefined {
  return volumeOf(vial.stock?.reconstitute?.one("with")?.slots.volume.quantity);
}

function watchLabel(bench: Bench, vial: Vessel, fluid: Liquid, moved: Exact, spot: Spot): void {
  const label = vial.stock?.reconstitute?.one("with")?.slots;
  const stated = labelVolume(vial);
  if (stated && !stated.equals(moved)) {
    bench.note("reconstituted-otherwise", spot, { vessel: vial, volume: moved, label: stated });
  }
  const used = [...fluid.fluids.keys()];
  // Of a fluid whose line cannot be read nobody knows that it is another.
  if (label && used.length > 0 && !used.includes(label.fluid.name)) {
    bench.note("reconstituted-with-other-fluid", spot, {
      vessel: vial,
      fluid: used.join(", "),
      label: label.fluid.name,
    });
  }
}
