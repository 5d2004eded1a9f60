/**
 * Liquid has come into a vial of powder, by whatever verb: the powder goes into it, and the vial holds more than was added. `reconstitute`
 * says both movements in one step; a syringe that was filled through a filter needle pushes by `inject`.
 */
import type { Spot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import { volumeOf } from "../quantities/quantity.ts";
import type { Bench } from "./bench.ts";
import { dissolvedVolume } from "./dissolved-volume.ts";
import { type Liquid, pour, unfiltered } from "./liquid.ts";
import type { Powder, Vessel } from "./things.ts";

/** To be called once the liquid is in. @param added what came in, mL and what it holds */
export function dissolvePowder(bench: Bench, vial: Vessel, powder: Powder, added: Liquid, spot: Spot): void {
  watchLabel(bench, vial, added, spot);
  const whole = dissolvedVolume(bench, vial, added.volume, spot);
  const solid: Liquid = {
    volume: whole.minus(added.volume),
    amounts: new Map([[powder.drug, powder.amount]]),
    fluids: new Map(),
    drugs: [powder.drug],
    stocks: vial.stock ? [vial.stock.name.name] : [],
    glass: false,
    pores: unfiltered,
  };
  vial.liquid = pour(vial.liquid, solid);
  vial.powder = undefined;
  vial.undissolved = bench.current;
  vial.unmixed = undefined;
  vial.yields = withdrawableAfter(vial, added.volume) ?? vial.liquid.volume;
  vial.yieldsOf = vial.liquid.stocks.length;
}

/** A vial that is packed under vacuum takes its liquid without pressure. */
export function isUnderVacuum(vial: Vessel): boolean {
  return vial.stock?.facts.one("vacuum")?.slots.answer.choice === "yes";
}

/** mL that the label of a powder wants added; undefined where it says nothing. */
export function labelVolume(vial: Vessel): Exact | undefined {
  return volumeOf(vial.stock?.reconstitute?.one("with")?.slots.volume.quantity);
}

/** mL that the label lets out again; it speaks of its own volume only, so that after another nobody knows better than all of it. */
function withdrawableAfter(vial: Vessel, added: Exact): Exact | undefined {
  const meant = labelVolume(vial);
  if (meant && !meant.equals(added)) return undefined;
  return volumeOf(vial.stock?.reconstitute?.one("withdrawable")?.slots.volume.quantity);
}

function watchLabel(bench: Bench, vial: Vessel, { fluids, volume }: Liquid, spot: Spot): void {
  const label = vial.stock?.reconstitute?.one("with")?.slots;
  const stated = labelVolume(vial);
  if (stated && !stated.equals(volume))
    bench.note("reconstituted-otherwise", spot, { vessel: vial, volume, label: stated });
  const used = [...fluids.keys()];
  // Of a fluid whose line cannot be read nobody knows that it is another.
  if (label && used.length > 0 && !used.includes(label.fluid.name))
    bench.note("reconstituted-with-other-fluid", spot, {
      vessel: vial,
      fluid: used.join(", "),
      label: label.fluid.name,
    });
}
