/** Drugs and fluids of the library that a text names and the recipe does not use. */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isSaltWord } from "./salt-words.ts";
import { type Contradiction, inOneSpelling, ownNames, wordsOf } from "./words-against-order.ts";

/** Names of drugs and fluids are two to four words long at most. */
const mostWords = 4;

/** `(not diazepam)`. */
const notMeant = /\b(?:not|never) (?:[a-z-]+ ?){1,3}/gi;

/** A drug or fluid of the library that the text names and the recipe does not use. */
export function substanceContradicted(text: string, recipe: Recipe, lookup: Lookup): Contradiction | undefined {
  const ordered = orderedDrugs(recipe);
  if (ordered.length === 0) return undefined;
  const orderedSpelt = ordered.map(inOneSpelling);
  const [drugNames, fluidNames] = [known(lookup.names("drug")), known(lookup.names("fluid"))];
  const words = wordsOf(text.replace(notMeant, " "));
  const isOfName = (word: string) => drugNames.words.has(word) || fluidNames.words.has(word);
  if (!words.some(isOfName)) return undefined;
  const named = runsOf(words.map(isOfName));
  const { fluids, names: own } = ownNames(recipe, lookup);
  const fluidsSpelt = fluids.map(inOneSpelling);
  let covered: readonly number[] | undefined;
  for (let length = mostWords; length > 0; length--) {
    for (let at = 0; at + length <= words.length; at++) {
      if (named[at]! < length) continue;
      const piece = words.slice(at, at + length);
      for (const name of length === 1 ? piece : [piece.join("-"), [...piece].reverse().join("-")]) {
        const isDrug = drugNames.names.has(name);
        if ((!isDrug && !fluidNames.names.has(name)) || orderedSpelt.includes(name)) continue;
        if (fluidsSpelt.includes(name) || (!isDrug && fluids.length === 0)) continue;
        const covering = own.filter((each) => piece.every((word) => each.has(word)));
        if (isDrug && isOtherWhole(piece, covering, words)) return { said: name, ordered: ordered.join(" and ") };
        if (covering.length > 0) continue;
        covered ??= runsOf(coveredBy(own, words));
        if (covered[at]! >= length) continue;
        return { said: name, ordered: (isDrug ? ordered : fluids).join(" and ") };
      }
    }
  }
  return undefined;
}

/**
 * `Amphotericin 150 mg` where liposomal amphotericin is ordered and plain amphotericin is a drug of the library too: the other one's whole
 * name, and no word that tells them apart.
 */
function isOtherWhole(
  piece: readonly string[],
  covering: readonly ReadonlySet<string>[],
  words: readonly string[],
): boolean {
  const isTelling = (word: string) => /^[a-z]{4}/.test(word) && !piece.includes(word) && !isSaltWord(word);
  return (
    covering.length > 0 &&
    covering.every((name) => {
      const telling = [...name].filter(isTelling);
      return telling.length > 0 && !telling.some((word) => words.includes(word));
    })
  );
}

/** From each place on, how many stand in a row that are so. */
function runsOf(are: readonly boolean[]): number[] {
  const lengths: number[] = new Array(are.length);
  let length = 0;
  for (let at = are.length - 1; at >= 0; at--) {
    length = are[at] ? length + 1 : 0;
    lengths[at] = length;
  }
  return lengths;
}

/** Which words stand in a run of two or more of one such name: `sodium phosphate, potassium chloride` names no potassium phosphate. */
function coveredBy(own: readonly ReadonlySet<string>[], words: readonly string[]): boolean[] {
  return words.map((word, i) =>
    own.some(
      (name) => name.has(word) && (name.has(words[i - 1] ?? "") || name.has(words[i + 1] ?? "") || name.size === 1),
    ),
  );
}

interface KnownNames {
  names: ReadonlySet<string>;
  /** All that these names are made of. */
  words: ReadonlySet<string>;
}

/** The list of a library's names is one object as long as they stay the same. */
const known = keptWith(
  (names: readonly string[]): KnownNames => ({
    names: new Set(names.map(inOneSpelling)),
    words: new Set(names.flatMap((name) => inOneSpelling(name).split("-"))),
  }),
);
