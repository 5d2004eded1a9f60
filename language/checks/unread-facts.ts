/** Facts whose line cannot be read or whose figure has no value; both are always told at the line. */
import { orderedDrugs } from "../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../model/declaration.ts";
import type { Fact, Facts } from "../model/facts.ts";
import type { RecipeContext } from "./context.ts";
import { isInSameFile } from "./same-file.ts";
import { measuresOf } from "./stated-measures.ts";

/** The fact may be stated and is not known: it must not be said to be absent, and what needs it is not judged. */
// biome-ignore lint/suspicious/noExplicitAny: facts of every table are asked alike
export function isNotKnown(facts: Facts<any> | undefined, word: string): boolean {
  return facts !== undefined && (facts.isUnread(word) || (facts.all(word) as readonly Fact[]).some(lacksValue));
}

function lacksValue(fact: Fact): boolean {
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

/**
 * Whether somebody who looks at the recipe's file alone reads that this line of the monograph cannot be read: at the line, or from
 * `monograph-incomplete` where the monograph stands in another file and the site keeps that finding as a warning at least.
 */
export function isGapTold(
  drug: Drug,
  facts: Facts,
  words: readonly string[],
  { chunk, recipe, policy }: Pick<RecipeContext, "chunk" | "recipe" | "policy">,
): boolean {
  if (isInSameFile(drug.chunk, chunk)) return words.some((word) => isNotKnown(facts, word));
  const graded = policy.severities.get(gap);
  const isQuiet = graded === "off" || graded === "note" || recipe.deviations.some((d) => d.check.name === gap);
  return !isQuiet && orderedDrugs(recipe).includes(drug.name.name) && words.some((word) => facts.isUnread(word));
}

const gap = "monograph-incomplete";
