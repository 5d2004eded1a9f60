/** Asks a check what it finds, one thing after the other. */
import type { Findings, Found } from "./check.ts";

/**
 * `next` of every generator. Looked up on each one's own chain, as `for … of` does, it costs more than most of the checks: every
 * generator function has a prototype of its own, and hundreds of them are asked for every recipe.
 */
const { next } = Object.getPrototypeOf(function* () {}).prototype as Generator<Found>;

/** @param take is given each thing as soon as it is found: a check that stops in the middle has told the ones before */
export function eachFound(found: Findings<Found>, take: (found: Found) => void): void {
  if (Array.isArray(found)) {
    for (const each of found as readonly Found[]) take(each);
    return;
  }
  for (let step = next.call(found); !step.done; step = next.call(found)) take(step.value);
}
