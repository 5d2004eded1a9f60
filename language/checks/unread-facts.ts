/**
 * Facts whose line cannot be read or whose figure has no value; both are always told at the line, and where it stands in another file
 * in each recipe that rests on it (`unread-elsewhere.ts`).
 */
import type { Recipe } from "../model/declaration.ts";
import type { Fact, Facts } from "../model/facts.ts";
import { measuresOf } from "./stated-measures.ts";

/** The fact may be stated and is not known: it must not be said to be absent, and what needs it is not judged. */
// biome-ignore lint/suspicious/noExplicitAny: facts of every table are asked alike
export function isNotKnown(facts: Facts<any> | undefined, word: string): boolean {
  return facts !== undefined && (facts.isUnread(word) || (facts.all(word) as readonly Fact[]).some(lacksValue));
}

export function lacksValue(fact: Fact): boolean {
  return measuresOf(fact).some(({ quantity }) => quantity === undefined);
}

/** How fast the preparation is given stands in a line that is told as unread. */
export function isGivingNotKnown({ order }: Recipe): boolean {
  return isNotKnown(order, "infuse-over") || isNotKnown(order, "infuse-at");
}

/** What is ordered stands in a line that is told as unread, so that the words of a title are laid against a part of the order only. */
export function isOrderedNotKnown({ order }: Recipe): boolean {
  return ["drug", "additive", "dose"].some((word) => isNotKnown(order, word));
}
