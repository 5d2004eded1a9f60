/** Liquid is drawn into a syringe: what the label lets one take, what the scale can show, what is noticed on the way. */
import type { Spot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import type { Ask, Bench, Pressure } from "./bench.ts";
import { enter, passParts, watchContent } from "./entering.ts";
import { watchFinished } from "./finished.ts";
import { isAlike, type Liquid, noLiquid, pour, scaled, takePart } from "./liquid.ts";
import { isOneLiquid } from "./one-liquid.ts";
import { countOverfill } from "./overfill.ts";
import { readingOf } from "./reading.ts";
import { mostOfOne } from "./setup.ts";
import type { StepRun } from "./step-run.ts";
import { isSealedVial, type Vessel } from "./things.ts";
import { isConsumable, isStockContainer, mayVent } from "./vessels.ts";

/**
 * Draws from the vessels, emptying one after another. The volume that moves is the reading on the syringe's scale.
 * @returns mL that moved
 */
export function drawUp(
  bench: Bench,
  from: readonly Vessel[],
  syringe: Vessel,
  ask: Ask,
  spot: Spot,
  pressure: Pressure,
  onTop = false,
): Exact {
  const before = syringe.liquid.volume;
  const reading = readingOf(bench, syringe, before, ask, spot);
  if (syringe.capacity && before.plus(reading).isAbove(syringe.capacity)) {
    // Once for the whole draw, however many containers it empties.
    bench.note("draw-beyond-syringe", spot, { syringe, asked: reading, already: before, capacity: syringe.capacity });
  }
  let rest = reading;
  for (const vessel of from) {
    if (!rest.isPositive()) break;
    const available = availableIn(vessel);
    if (!available.isPositive()) continue;
    const part = Exact.least(available, rest);
    drawFrom(bench, vessel, syringe, part, spot, pressure, onTop);
    rest = rest.minus(part);
  }
  const isKnown = from.map((vessel) => watchContent(bench, vessel, spot)).every(Boolean);
  if (isKnown && rest.isPositive()) noteShortage(bench, from, reading, rest, spot);
  const moved = reading.minus(Exact.greatest(rest, Exact.zero));
  bench.current.moved = (bench.current.moved ?? Exact.zero).plus(moved);
  return moved;
}

/** What the label lets one draw: never the overfill, never more than is there. */
export function availableIn(vessel: Vessel): Exact {
  return vessel.yields && isStockContainer(vessel)
    ? Exact.least(vessel.yields, vessel.liquid.volume)
    : vessel.liquid.volume;
}

function drawFrom(
  bench: Bench,
  vessel: Vessel,
  syringe: Vessel,
  volume: Exact,
  spot: Spot,
  pressure: Pressure,
  onTop: boolean,
): void {
  enter(bench, vessel, syringe, spot);
  watchSource(bench, vessel, syringe, spot, onTop);
  watchLoaded(bench, vessel, syringe, spot);
  watchFinished(bench, syringe, spot);
  const loaded = syringe.drawnBy;
  // More drawn on top up to a mark: air from the draw before would stand in for liquid.
  if (!syringe.airExpelled && loaded && loaded !== bench.current && syringe.liquid.volume.isPositive()) {
    bench.note("air-not-expelled", spot, { syringe, drawn: loaded, target: syringe });
  }
  countOverfill(bench, vessel);
  const { taken, left } = takenFor(bench, vessel, syringe, volume);
  vessel.liquid = left;
  if (vessel.yields) vessel.yields = vessel.yields.minus(volume);
  vessel.drawnBy ??= bench.current;
  vessel.inspected = undefined;
  // Once some has left a syringe, its scale no longer speaks of a dose.
  if (vessel.kind === "syringe") vessel.airExpelled = true;
  balanceAfterDraw(bench, vessel, syringe, volume, spot, pressure);
  const passed = passParts(bench, syringe, taken, "drawn", vessel, spot);
  // Emptied into a container it is mixed there; labelled or drawn from, it has to be mixed itself.
  if (!syringe.liquid.volume.isPositive()) syringe.unmixed = undefined;
  else if (!isAlike(syringe.liquid, passed)) syringe.unmixed = bench.current;
  if (passed.glass && bench.isFinal(syringe)) {
    bench.note("glass-not-filtered", spot, { target: syringe, drugs: passed.drugs });
  }
  syringe.liquid = pour(syringe.liquid, passed);
  syringe.drawnBy = bench.current;
  syringe.airExpelled = false;
  for (const stock of taken.stocks) if (!syringe.wettedBy.includes(stock)) syringe.wettedBy.push(stock);
  bench.current.movements.push({
    how: "draw",
    from: vessel,
    to: syringe,
    asked: volume,
    moved: volume,
    liquid: passed,
    spot,
  });
}

/** What leaves a vessel for a reading. With errors, a container used up by its label gives in proportion, so that none runs dry. */
function takenFor(bench: Bench, vessel: Vessel, syringe: Vessel, reading: Exact): { taken: Liquid; left: Liquid } {
  const { errors } = bench.options;
  if (!errors) return takePart(vessel.liquid, reading);
  const real = errors.volume(bench.current, syringe, reading);
  if (isConsumable(vessel) || real.isAbove(vessel.liquid.volume)) {
    const { taken, left } = takePart(vessel.liquid, reading);
    return { taken: scaled(taken, real.over(reading)), left };
  }
  return takePart(vessel.liquid, real);
}

function watchSource(bench: Bench, vessel: Vessel, syringe: Vessel, spot: Spot, onTop: boolean): void {
  if (vessel.undissolved) bench.note("drawn-before-dissolved", spot, { vessel, since: vessel.undissolved });
  if (vessel.unmixed) bench.note("drawn-before-mixed", spot, { vessel, since: vessel.unmixed });
  if (vessel.sealed) bench.note("touched-after-seal", spot, { vessel, since: vessel.sealed });
  const isOther = (name: string) => {
    const [before, now] = [bench.stock(name), vessel.stock];
    return (
      bench.holdsDrug(name) && !vessel.liquid.stocks.includes(name) && !(before && now && isOneLiquid(before, now))
    );
  };
  const had = syringe.wettedBy.filter(isOther);
  if (had.length > 0 && !onTop && vessel.stock) {
    bench.note("second-drug-in-syringe", spot, { syringe, had, now: vessel.stock.name.name });
  }
}

/** Other liquid on top of a high-alert drug hides the volume that was drawn of it. */
function watchLoaded(bench: Bench, vessel: Vessel, syringe: Vessel, spot: Spot): void {
  const { drawnBy } = syringe;
  if (!drawnBy || drawnBy === bench.current || !bench.isFinal(syringe)) return;
  if (bench.lastCheck && bench.lastCheck.number > drawnBy.number) return;
  const onlyMore = syringe.liquid.stocks.every((stock) => vessel.liquid.stocks.includes(stock));
  if (onlyMore) return;
  for (const drug of syringe.liquid.drugs) {
    if (!bench.isHighAlert(drug)) continue;
    // It may have come by another syringe, and have been checked in that.
    const drawn = lastDrawOf(bench, drug) ?? drawnBy;
    if (bench.lastCheck && bench.lastCheck.number > drawn.number) continue;
    bench.note("high-alert-hidden-unchecked", spot, { drug, syringe, drawn });
  }
}

function lastDrawOf(bench: Bench, drug: string): StepRun | undefined {
  return bench.steps.findLast((step) =>
    step.movements.some(({ how, liquid }) => how === "draw" && liquid.amounts.get(drug)?.isPositive()),
  );
}

function balanceAfterDraw(
  bench: Bench,
  vessel: Vessel,
  syringe: Vessel,
  volume: Exact,
  spot: Spot,
  pressure: Pressure,
): void {
  if (vessel.kind === "ampoule") {
    if (pressure) bench.note("air-into-ampoule", spot, { vessel });
    return;
  }
  if (!isSealedVial(vessel) || mayVent(syringe)) return;
  const hazardous = bench.isHazardous(vessel.liquid);
  if (pressure === "equal pressure") {
    if (hazardous) bench.note("hazardous-equal-air", spot, { vessel, volume });
    return;
  }
  vessel.pressure = vessel.pressure.minus(volume);
  if (pressure === "negative pressure" || hazardous) return;
  if (vessel.pressure.negated().isAbove(bench.policy.equalAirAbove)) {
    bench.note("no-equal-air", spot, { vessel, volume });
    vessel.pressure = Exact.zero;
  }
}

function noteShortage(bench: Bench, from: readonly Vessel[], asked: Exact, rest: Exact, spot: Spot): void {
  const first = from.find((vessel) => isCountDerived(bench, vessel)) ?? from[0];
  if (!first) return;
  const group = bench.setup.groups.get(first.name);
  const full = fullYield(bench, first);
  // What is finished is one container, however much is taken out of it.
  if (group && from.length > 0 && full.isPositive() && isConsumable(first) && !bench.isFinal(first)) {
    const short = group.stated === undefined ? (bench.shortages.get(first.name)?.plus(rest) ?? rest) : rest;
    const needed = group.things.length + Number(short.over(full).ceil().toText());
    // A count that no bench can hold is a wrong figure, told as a shortage with its volumes.
    if (group.stated === undefined && needed <= mostOfOne) {
      // What later steps lack they may lack for that alone: it is asked again once this is there.
      bench.shortIn ??= bench.current;
      if (bench.shortIn !== bench.current) return;
      bench.shortages.set(first.name, short);
      bench.demands.counts.set(first.name, needed);
      return;
    }
    if (group.stated !== undefined && group.things.length > 1) {
      bench.note("too-few-containers", spot, { name: first.name, stated: group.stated, needed });
      return;
    }
  }
  bench.note("draw-beyond-content", spot, { vessel: first, asked, held: asked.minus(rest) });
}

/** One more of it may be taken: how many there are follows from what is drawn. What is finished is one container. */
export function isCountDerived(bench: Bench, vessel: Vessel): boolean {
  const group = bench.setup.groups.get(vessel.name);
  return group !== undefined && group.stated === undefined && isConsumable(vessel) && !bench.isFinal(vessel);
}

function fullYield(bench: Bench, vessel: Vessel): Exact {
  const drawn = bench.steps
    .concat(bench.current)
    .flatMap((s) => s.movements)
    .filter((m) => m.from === vessel)
    .reduce((sum, m) => sum.plus(m.moved), Exact.zero);
  return availableIn(vessel).plus(drawn);
}

/** Takes liquid out and throws it away. */
export function waste(bench: Bench, vessel: Vessel, syringe: Vessel, ask: Ask, spot: Spot): void {
  drawUp(bench, [vessel], syringe, ask, spot, undefined);
  syringe.liquid = noLiquid;
  const movement = bench.current.movements.at(-1);
  if (movement) movement.how = "waste";
}
