/** Asks a check what it finds, one thing after the other. */
import type { Findings, Found } from "./check.ts";

/**
 * `next` of every generator. Looked up on each one's own chain, as `for … of` does, it costs more than most of the checks: every
 * generator function has a prototype of its own, and hundreds of them are asked for every recipe.
 */
const { next } = Object.getPrototypeOf(function* () {}).prototype as Generator<Found>;

/** Undefined where nothing was found, as by almost every check. A check that stops in the middle has given what it found before. */
export function anyFound(found: Findings<Found>): Iterable<Found> | undefined {
  if (Array.isArray(found)) return found.length > 0 ? found : undefined;
  const first = next.call(found);
  return first.done ? undefined : withRest(first.value, found as Generator<Found>);
}

function* withRest(first: Found, rest: Generator<Found>): Iterable<Found> {
  yield first;
  yield* rest;
}
