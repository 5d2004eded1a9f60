/** Liquid is pushed out of a syringe and arrives in a container. */
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import type { Bench, Pressure } from "./bench.ts";
import { dissolvePowder, isUnderVacuum } from "./dissolving.ts";
import { enter, passParts } from "./entering.ts";
import { watchFinished } from "./finished.ts";
import { inLines } from "./lines.ts";
import { isAlike, type Liquid, pour, takePart } from "./liquid.ts";
import { isSealedVial, type Vessel } from "./things.ts";
import { closesTip, mayVent, vesselKey } from "./vessels.ts";

/** Pushes `volume` mL of the syringe's content into `target`. @returns mL that moved */
export function push(
  bench: Bench,
  syringe: Vessel,
  target: Vessel,
  volume: Exact,
  spot: Spot,
  pressure: Pressure,
): Exact {
  const held = syringe.liquid.volume;
  if (syringe.sealed) bench.note("touched-after-seal", spot, { vessel: syringe, since: syringe.sealed });
  if (!held.isPositive()) {
    // Where a draw before could not be computed, an empty syringe is no news.
    if (!bench.unknown) bench.note("nothing-to-push", spot, { syringe });
    return Exact.zero;
  }
  if (volume.isAbove(held)) bench.note("push-beyond-content", spot, { syringe, asked: volume, held });
  const moved = Exact.least(volume, held);
  enter(bench, target, syringe, spot);
  watchTarget(bench, syringe, target, spot);
  watchReceiving(bench, syringe, target, spot);
  const { drawnBy } = syringe;
  // A verb that draws and pushes in one movement has its air seen to in its own caution.
  if (!syringe.airExpelled && drawnBy && drawnBy !== bench.current && !returnsToStock(bench, syringe, target)) {
    bench.note("air-not-expelled", spot, { syringe, drawn: drawnBy, target });
    syringe.airExpelled = true;
  }
  const { unmixed } = syringe;
  if (unmixed && moved.isBelow(held))
    bench.note("drawn-before-mixed", spot, { vessel: syringe, since: unmixed, way: "pushed" });
  const { errors } = bench.options;
  // A part is pushed out by the scale; all of it is pushed to the stop.
  const real = errors && moved.isBelow(held) ? Exact.least(errors.volume(bench.current, syringe, moved), held) : moved;
  const { taken, left } = takePart(syringe.liquid, real);
  syringe.liquid = left;
  const passed = passParts(bench, syringe, taken, "pushed", undefined, spot);
  const isFirst = !target.liquid.volume.isAbove(inLines(target));
  const wasPowder = target.powder !== undefined;
  receive(bench, target, passed, spot);
  // What lay in layers in the syringe lies so in an empty container.
  if (unmixed && isFirst && !moved.isBelow(held)) target.unmixed = bench.current;
  if (isSealedVial(target) && !mayVent(syringe) && pressure !== "equal pressure") {
    target.pressure = target.pressure.plus(moved);
  }
  if (wasPowder) watchPressure(bench, target, syringe, pressure, spot);
  bench.current.moved = (bench.current.moved ?? Exact.zero).plus(moved);
  bench.current.movements.push({ how: "push", from: syringe, to: target, asked: volume, moved, liquid: passed, spot });
  return moved;
}

/** Drug goes back into the stock container that it came from. */
function returnsToStock(bench: Bench, syringe: Vessel, target: Vessel): boolean {
  const own = target.stock?.name.name;
  return own !== undefined && syringe.wettedBy.includes(own) && bench.holdsDrug(own) && !target.powder;
}

function watchTarget(bench: Bench, syringe: Vessel, target: Vessel, spot: Spot): void {
  if (returnsToStock(bench, syringe, target)) {
    bench.note("returned-to-stock", spot, { vessel: target, syringe });
    // The bubble goes back with it.
    syringe.airExpelled = true;
  }
  for (const drug of syringe.liquid.drugs) {
    const alert = bench.isHighAlert(drug);
    const drawn = syringe.drawnBy;
    const checked = bench.lastCheck && drawn && bench.lastCheck.number > drawn.number;
    if (alert && !checked && bench.isFinal(target))
      bench.note("high-alert-added-unchecked", spot, { drug, target, drawn });
  }
}

/** A syringe is filled through its own free tip, and by its scale only once its air is out. */
function watchReceiving(bench: Bench, syringe: Vessel, target: Vessel, spot: Spot): void {
  if (target.kind !== "syringe") return;
  const by = target.attached.at(-1);
  const part = syringe.attached.at(-1);
  if (by && part && closesTip(by)) bench.note("tip-occupied", spot, { syringe: target, by, part });
  const drawn = target.drawnBy;
  if (!target.airExpelled && drawn && drawn !== bench.current && target.liquid.volume.isPositive()) {
    bench.note("air-not-expelled", spot, { syringe: target, drawn, target });
    target.airExpelled = true;
  }
}

/** What went onto a powder leaves its vial under pressure, unless air could get out or the vial was packed under vacuum. */
function watchPressure(bench: Bench, vial: Vessel, syringe: Vessel, pressure: Pressure, spot: Spot): void {
  if (isUnderVacuum(vial)) vial.pressure = Exact.zero;
  else if (vial.pressure.isPositive() && !mayVent(syringe) && pressure === undefined)
    bench.note("vial-under-pressure", spot, { vessel: vial, volume: vial.pressure, cause: "diluent" });
}

/** Liquid arrives in a container, by whatever way. */
export function receive(bench: Bench, target: Vessel, liquid: Liquid, spot: Spot): void {
  watchFinished(bench, target, spot);
  if (target.running) bench.note("added-while-running", spot, { vessel: target, since: target.running });
  if (target.stock?.facts.one("premixed")?.slots.answer.choice === "yes")
    bench.note("added-to-premixed", spot, { vessel: target });
  if (target.unmixed && target.kind !== "syringe" && !isMixedOnce(bench, target, liquid))
    bench.note("added-before-mixed", spot, { vessel: target, since: target.unmixed });
  if (liquid.glass && bench.isFinal(target)) {
    bench.note("glass-not-filtered", spot, { target, drugs: liquid.drugs });
  }
  const present = {
    drugs: target.liquid.drugs,
    fluids: [...target.liquid.fluids.keys()],
    volume: target.liquid.volume,
  };
  const after = pour(target.liquid, bench.isFinal(target) ? { ...liquid, glass: false } : liquid);
  bench.note("addition", spot, {
    vessel: target,
    drugs: liquid.drugs,
    fluids: [...liquid.fluids.keys()],
    present,
    after,
  });
  // What stands in a line does not meet what comes into the reservoir.
  const mixes = target.liquid.volume.isAbove(inLines(target)) && !isAlike(target.liquid, liquid);
  target.liquid = after;
  if (target.yields) target.yields = target.yields.plus(liquid.volume);
  if (mixes) target.unmixed = bench.current;
  target.mixed = undefined;
  const inside = target.liquid.volume.minus(inLines(target));
  if (target.capacity && inside.isAbove(target.capacity)) {
    const data = { vessel: target, volume: inside, capacity: target.capacity };
    bench.note("container-overfilled", spot, data);
  }
  const key = vesselKey(target);
  bench.demands.addedVolume.set(key, (bench.demands.addedVolume.get(key) ?? Exact.zero).plus(liquid.volume));
  if (target.powder && liquid.volume.isPositive()) dissolvePowder(bench, target, target.powder, liquid, spot);
}

/** Plain diluent that makes a container up, or comes on top of other plain diluent: one mixing serves for both. */
function isMixedOnce(bench: Bench, target: Vessel, added: Liquid): boolean {
  if (added.drugs.length > 0) return false;
  const before = target.unmixed?.movements.filter(({ to }) => to === target) ?? [];
  return bench.current.verb === "make" || before.every(({ liquid }) => liquid.drugs.length === 0);
}
