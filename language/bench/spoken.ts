/** Words for the sentences that verbs print. */

import type { NameSlot } from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import type { StepRun } from "./step-run.ts";

/** `mag`, `mag and bag`, `mag, filter and needle`. */
export function spoken(names: readonly NameSlot[]): string {
  const words = names.map((n) => n.name);
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

export function millilitres(volume: Exact): string {
  return `${volume.toText()} mL`;
}

/** Volume that a step moved, or nothing when it moved none. */
export function showVolume(run: StepRun): string {
  return run.moved ? millilitres(run.moved) : "";
}
