/** The part of a stability row's time that is gone before the preparation is finished, as far as the steps state it. */
import type { MeasureSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { hours } from "../quantities/hours.ts";
import { type Quantity, showQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { Run } from "./run.ts";
import type { StableRow } from "./stable-rows.ts";
import type { StepRun } from "./step-run.ts";
import type { Vessel } from "./things.ts";

/** The step in which a row's clock starts; undefined where no step shows it. */
export function clockStart(row: StableRow, drug: string, vessel: Vessel, run: Run): StepRun | undefined {
  const holds = (step: StepRun, v: Vessel) => step.after.get(v)?.drugs.includes(drug) === true;
  switch (row.one("counted-from")?.slots.event.choice ?? "mixing") {
    case "reconstitution":
      return run.steps.find((s) => s.verb === "reconstitute" && [...s.after.keys()].some((v) => holds(s, v)));
    case "opening":
      return run.steps.find((s) =>
        s.touched.some((t) => t.is === "vessel" && t.opened === s && t.liquid.drugs.includes(drug)),
      );
    default:
      return run.steps.find((s) => holds(s, vessel));
  }
}

/** Hours that the steps wait between the start of the row's clock and the end of preparation; how long work takes is not known. */
export function waitedSince(row: StableRow, drug: string, vessel: Vessel, run: Run): Exact {
  const start = clockStart(row, drug, vessel, run);
  let waited = Exact.zero;
  if (!start) return waited;
  for (const step of run.steps) {
    if (step.number <= start.number || step.skipped || step.verb !== "wait") continue;
    waited = waited.plus(hours((step.slots as { time?: MeasureSlot }).time?.quantity) ?? Exact.zero);
  }
  return waited;
}

export interface TimeLeft {
  time: Quantity;
  /** `24 h`, or `6 h (8 h less 2 h of waiting in the steps)`. */
  written: string;
}

/** What a row's time leaves for keeping; undefined where the time cannot be read. */
export function timeLeft(time: MeasureSlot, waited: Exact): TimeLeft | undefined {
  const { quantity, written } = time;
  if (!quantity) return undefined;
  if (!waited.isPositive()) return { time: quantity, written };
  const stated = hours(quantity, 28);
  if (!stated) return undefined;
  const left = inTime(stated.isAbove(waited) ? stated.minus(waited) : Exact.zero);
  const words = `${showQuantity(left)} (${written} less ${showQuantity(inTime(waited))} of waiting in the steps)`;
  return { time: left, written: words };
}

/** In minutes where hours would have decimals that no clock shows. */
export function inTime(hours: Exact): Quantity {
  const minutes = hours.times(Exact.of(60));
  return !hours.isWhole() && minutes.isWhole()
    ? { value: minutes, unit: findUnit("min").unit! }
    : { value: hours, unit: findUnit("h").unit! };
}
