/**
 * A name that is the end of the ordered drug's name: adrenaline for noradrenaline, bupivacaine for levobupivacaine, omeprazole for
 * esomeprazole. Most of them are other medicines, and whoever leaves the beginning out need not have either in the library.
 */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isSaltWord } from "./salt-words.ts";
import { assertions, type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

/** With its figure behind it: what only is spoken of has none. */
const namesWithFigures = /\b([a-z]{7,})(?: \((?:as )?[a-z ]+\))? (?=\d)/gi;

export function tailContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  const drugs = orderedDrugs(recipe);
  for (const sentence of assertions(text)) {
    for (const [, written] of sentence.matchAll(namesWithFigures)) {
      const word = written!.toLowerCase();
      if (isSaltWord(word)) continue;
      const own = drugs.map((drug) => ({ drug, words: namesOf("drug", drug, lookup).flatMap(wordsOf) }));
      if (own.some(({ words }) => words.includes(word))) continue;
      const meant = own.find(({ words }) => words.some((each) => each.endsWith(word)));
      if (meant) return { said: word, ordered: meant.drug, whole: "order" };
    }
  }
  return undefined;
}
