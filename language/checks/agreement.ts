/** When two figures differ by nothing that a person could read or measure. */
import { Exact } from "../quantities/exact.ts";

const lastOfFour = Exact.of("0.0001");

/**
 * Do the two agree to one part in ten thousand? A volume that comes from 4.057 mmol, itself rounded from 1 g, is short by less than
 * anything that is read at the bench. Decided on the numbers and not on their texts, so that it is decided for a whole range.
 */
export function agrees(found: Exact, wanted: Exact): boolean {
  return found.minus(wanted).abs().isAtMost(wanted.abs().times(lastOfFour));
}
