/** What the scale of a syringe can show: a volume is measured at a mark, whether it is drawn or a part is pushed out. */
import type { Spot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Ask, Bench } from "./bench.ts";
import type { Vessel } from "./things.ts";

/** The mark at which the plunger stops, half up, less what was in the syringe before. */
export function readingOf(bench: Bench, syringe: Vessel, before: Exact, ask: Ask, spot: Spot): Exact {
  const { graduation, capacity } = syringe;
  const place = ask.stated ?? spot;
  if (capacity && ask.volume.isPositive()) {
    const measured = ask.toMark ? before.plus(ask.volume) : ask.volume;
    if (!ask.lastLoad) watchSmall(bench, syringe, measured, ask.volume, place);
    const most = capacity.times(bench.policy.largestShare);
    const total = before.plus(ask.volume);
    if (total.isAbove(most) && total.isAtMost(capacity))
      bench.note("syringe-too-full", place, { syringe, total, most });
  }
  if (!graduation?.isPositive() || ask.all) return ask.volume;
  const reading = before.plus(ask.volume).toNearest(graduation).minus(before);
  if (!reading.equals(ask.volume)) {
    const stated = ask.stated !== undefined;
    const byLabel = ask.byLabel === true;
    const data = { syringe, asked: ask.volume, reading, interval: graduation, stated, byLabel, how: "drawn" } as const;
    bench.note("not-on-graduation", place, data);
  }
  return ask.byLabel ? ask.volume : reading;
}

/**
 * A part of what a syringe holds, pushed out or kept in it by the marks that the plunger passes. What comes to all of it is pushed to the
 * stop, and what is beyond it is no reading.
 */
export function partReading(
  bench: Bench,
  syringe: Vessel,
  { volume, stated, all }: Ask,
  spot: Spot,
  how: "pushed" | "kept" = "pushed",
): Exact {
  const { graduation, capacity } = syringe;
  const held = syringe.liquid.volume;
  if (all || !volume.isPositive() || volume.isAtLeast(held) || !graduation?.isPositive()) return volume;
  const reading = volume.toNearest(graduation);
  if (reading.isAtLeast(held)) return held;
  const place = stated ?? spot;
  // From a full syringe small parts are given out one after another, each between two marks; only what is kept is measured from nothing.
  if (capacity && how === "kept") watchSmall(bench, syringe, volume, volume, place);
  if (!reading.equals(volume)) {
    const data = {
      syringe,
      asked: volume,
      reading,
      interval: graduation,
      stated: stated !== undefined,
      byLabel: false,
    };
    bench.note("not-on-graduation", place, { ...data, how });
  }
  return reading;
}

function watchSmall(bench: Bench, syringe: Vessel, measured: Exact, asked: Exact, place: Spot): void {
  const smallest = syringe.capacity!.times(bench.policy.smallestShare);
  if (measured.isBelow(smallest)) bench.note("too-small-to-measure", place, { syringe, asked, smallest });
}
