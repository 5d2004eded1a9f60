/**
 * The one rounding policy: half up, as a person does it (half way goes away from zero). Every rounding that the tool makes
 * is one of the named ones here; nothing else in the tree rounds a number on its own.
 */
import type { Exact } from "./exact.ts";

/** How an author says it in `round dose to nearest 250 mg`. */
export type RoundingWay = "to nearest" | "upward to" | "downward to";

/** An ordered dose rounded to a multiple of `step` (above zero, same base unit as the value). */
export function roundDose(value: Exact, way: RoundingWay, step: Exact): Exact {
  if (way === "upward to") return value.upTo(step);
  if (way === "downward to") return value.downTo(step);
  return value.toNearest(step);
}

/** What a person reads on a scale marked every `graduation`: the nearest mark, half way upward. */
export function readOnScale(value: Exact, graduation: Exact): Exact {
  return value.toNearest(graduation);
}

/** Containers to open so that they hold at least what is needed: rounds up, and nothing needs none. */
export function wholeContainers(needed: Exact, content: Exact): Exact {
  return needed.over(content).ceil();
}

/** A derived figure at the precision at which a stated one was written (decimals after the point). */
export function asWritten(value: Exact, decimals: number): Exact {
  return value.roundedTo(decimals);
}

/** True when `stated`, written with `decimals` places, is what `derived` rounds to. */
export function agreesAsWritten(derived: Exact, stated: Exact, decimals: number): boolean {
  return asWritten(derived, decimals).equals(stated);
}

/** Four significant digits for figures that are shown and not executed; fewer where the number ends earlier. */
export function forShowing(value: Exact): Exact {
  return value.roundedToDigits(4);
}
