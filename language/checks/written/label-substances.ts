/** Drugs and fluids that a line of the label gives a figure to, laid against what the recipe holds. */
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isOfPreparation, ofAnother } from "./bare-figures.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isSaltWord } from "./salt-words.ts";
import { substanceContradicted } from "./substances-named.ts";
import { assertions, type Contradiction, wordsOf } from "./words-against-order.ts";

/** It is spoken of beside the preparation: what is given against it, or must not meet it. */
export const besides =
  /\b(?:another|antidote|revers\w*|mix\w*|together|compatible|incompatible|flush\w*|dilut\w*|dissolv\w*|reconstitut\w*|with|y-site|via|separate\w*|monitor\w*|level|check|at hand|ready|available|standby|nearby)\b/i;

/** `Hydrocortisone 100 mg` on a bag of morphine, and `in glucose 5 %` on one of saline. A line that only speaks of another is left alone. */
export function labelSubstanceContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    if (besides.test(sentence) || ofAnother.test(sentence)) continue;
    const [first] = figuresIn(sentence);
    // `Diazepam infusion` names what it is without a figure.
    const named = wordsOf(first?.before ?? sentence).filter((word) => !isOfPreparation(word) && !/^\d/.test(word));
    const fluid = /\bin ([a-z][a-z' -]* \d+(?:\.\d+)? ?%)/i.exec(sentence)?.[1] ?? percentFirst(sentence);
    const contradicted =
      (named.length > 0 && mayBeName(first, named)
        ? wholly(named, substanceContradicted(named.join(" "), recipe, lookup))
        : undefined) ?? (fluid === undefined ? undefined : substanceContradicted(fluid, recipe, lookup));
    if (contradicted) return { ...contradicted, whole: "recipe" };
  }
  return undefined;
}

/** `in 0.9 % sodium chloride`, with the figure behind the name, as fluids are called. */
function percentFirst(sentence: string): string | undefined {
  const [, percent, name] = /\bin (\d+(?:\.\d+)? ?%)(?: w\/v)? ([a-z]+(?: [a-z]+)?)/i.exec(sentence) ?? [];
  return percent === undefined ? undefined : `${name} ${percent}`;
}

/** Behind a figure words are anybody's; without one they must be a name and nothing more. */
function mayBeName(first: TextFigure | undefined, named: readonly string[]): boolean {
  return first !== undefined || named.length <= 3;
}

/** The words in front of the figure are that name, perhaps with its salt, and nothing else. */
function wholly(words: readonly string[], found: Contradiction | undefined): Contradiction | undefined {
  if (!found) return undefined;
  const name = new Set(wordsOf(found.said));
  return words.every((word) => name.has(word) || isSaltWord(word)) ? found : undefined;
}
