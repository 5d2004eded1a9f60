/**
 * A name that is the end of the ordered drug's name: adrenaline for noradrenaline, bupivacaine for levobupivacaine, omeprazole for
 * esomeprazole. Most of them are other medicines, and whoever leaves the beginning out need not have either in the library.
 */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isOfPreparation } from "./bare-figures.ts";
import { formulationsIn, formulationsOf } from "./formulations.ts";
import { isSaltWord } from "./salt-words.ts";
import { isMoietyOf } from "./undeclared-forms.ts";
import { assertions, type Contradiction, namesOf, wordsOf } from "./words-against-order.ts";

const shortestName = 7;
/** With its figure behind it: what only is spoken of has none. */
const namesWithFigures = /\b([a-z]{7,})(?: \((?:as )?[a-z ]+\))? (?=\d)/gi;

export function tailContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  const drugs = orderedDrugs(recipe);
  const handed = handedContradicted(text, drugs, lookup);
  if (handed) return handed;
  for (const sentence of assertions(text)) {
    const kind = kindContradicted(sentence, drugs, lookup);
    if (kind) return kind;
    for (const written of namesIn(sentence)) {
      const word = written.toLowerCase();
      if (isSaltWord(word) || isMoietyOf(word, text, recipe, lookup)) continue;
      const own = drugs.map((drug) => ({ drug, words: namesOf("drug", drug, lookup).flatMap(wordsOf) }));
      if (own.some(({ words }) => words.includes(word))) continue;
      const meant = own.find(({ words }) => words.some((each) => each.endsWith(word)));
      if (meant) return { said: word, ordered: meant.drug, whole: "order" };
    }
  }
  return undefined;
}

/** `Insulin glargine` alone in a line where plain insulin is ordered. Beside a figure it is told as a name that is not known. */
function kindContradicted(sentence: string, drugs: readonly string[], lookup: Lookup): Contradiction | undefined {
  const said = /\d/.test(sentence) ? [] : formulationsIn(sentence);
  if (said.length === 0) return undefined;
  for (const drug of drugs) {
    const own = formulationsOf(drug, lookup);
    const others = said.filter((each) => !own.includes(each));
    const names = namesOf("drug", drug, lookup).flatMap(wordsOf);
    const rest = wordsOf(others.reduce((text, { words }) => text.replace(words, " "), sentence));
    const isNamed = rest.some((word) => names.includes(word) && !isSaltWord(word));
    if (others.length > 0 && isNamed && rest.every((word) => names.includes(word) || isOfPreparation(word)))
      return { said: sentence.trim().toLowerCase(), ordered: drug, whole: "order" };
  }
  return undefined;
}

/** Beside figures, or alone in a line but for words of the preparation: `Adrenaline infusion`. */
function namesIn(sentence: string): string[] {
  if (/\d/.test(sentence)) return [...sentence.matchAll(namesWithFigures)].map(([, written]) => written!);
  const words = wordsOf(sentence).filter((word) => !isOfPreparation(word) && !isSaltWord(word));
  return words.length === 1 && words[0]!.length >= shortestName ? words : [];
}

/** `S-ketamine`, `(R)-ketamine`, `S(+)-ketamine`: one of the two mirror images, and of another strength than both together. */
const handedNames = /(?<![A-Za-z0-9-])(\(?[RS]\)?(?:\([+-]\))?-)([a-z]{5,})\b/gi;

function handedContradicted(text: string, drugs: readonly string[], lookup: Lookup): Contradiction | undefined {
  for (const [said, hand, name] of text.matchAll(handedNames)) {
    const word = name!.toLowerCase();
    for (const drug of drugs) {
      const names = namesOf("drug", drug, lookup).map((each) => each.toLowerCase());
      const isHanded = names.some((each) => each.includes(`${hand!.toLowerCase()}${word}`));
      if (!isHanded && names.some((each) => wordsOf(each).includes(word)))
        return { said, ordered: drug, whole: "order" };
    }
  }
  return undefined;
}
