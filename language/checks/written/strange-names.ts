/** Names of drugs beside an amount that are no name of what the recipe orders or holds, whether the library knows them or not. */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isOfPreparation } from "./bare-figures.ts";
import { isMetal, looksLikeDrug } from "./drug-like-words.ts";
import { saysOtherKind } from "./formulations.ts";
import { type NamedAmount, namedAmounts } from "./named-amounts.ts";
import { isSaltWord } from "./salt-words.ts";
import { assertions, ownNames, wordsOf } from "./words-against-order.ts";

/** It is spoken of beside the preparation: given before it, against it or at another time. */
const ofAnotherMedicine =
  /\b(?:antidote|revers\w*|compatible|incompatible|flush\w*|y-site|via|separate\w*|monitor\w*|levels?|check|at hand|ready|available|standby|nearby|bedside|premedicat\w*|premed|pre-?treat\w*|rescue|concomitant\w*|concurrent\w*|co-?administ\w*|together|interact\w*|allerg\w*|followed|given|previous\w*|switch\w*|convert\w*|conversion|equivalent\w*|versus|replaces?|regimen|protocol|cycle|course|needed|prn|overdose|extravasation|anaphyla\w+|hypoglyc\w+|emergency|in case)\b/i;

/** Words on either side of a name that are no part of it. */
const besideNames: ReadonlySet<string> = new Set(
  (
    "drug drugs additive additives medicine medication product active ingredient name generic line no as base acid human recombinant " +
    "inj injection infusion solution sterile concentrate powder vial vials ampoule ampoules amp alfa beta b e k added add give new " +
    "bitartrate hydrobromide besilate besylate mesylate anhydrous monohydrate dihydrate trihydrate heptahydrate"
  ).split(" "),
);

export interface StrangeName {
  name: string;
  written: string;
}

/** @param isKnown whether a name that is none of the drug's stands beside its figure for a reason */
export function strangeName(
  text: string,
  recipe: Recipe,
  lookup: Lookup,
  isKnown = (_: StrangeName) => false,
): StrangeName | undefined {
  if (orderedDrugs(recipe).length === 0) return undefined;
  // Words of another alphabet, or with marks on their letters, are not laid against plain ones.
  if (/[^\P{L}A-Za-z]/u.test(text)) return undefined;
  for (const sentence of assertions(text)) {
    if (ofAnotherMedicine.test(sentence)) continue;
    for (const amount of namedAmounts(sentence)) {
      const name = nameBeside(amount, recipe, lookup);
      const found = name === undefined ? undefined : { name, written: amount.written };
      if (found && !isKnown(found)) return found;
    }
  }
  return undefined;
}

function nameBeside({ portion, behind, outside }: NamedAmount, recipe: Recipe, lookup: Lookup): string | undefined {
  const { names, words: known } = ownNames(recipe, lookup);
  let of: ReadonlySet<string> | undefined;
  const isHeld = (word: string) => {
    of ??= heldNames(recipe, lookup);
    return of.has(word);
  };
  const isOwn = (word: string) => known.drugs.has(word) || known.fluids.has(word) || isHeld(word);
  // `Noradrenaline (norepinephrine 8 mg)` says the name again.
  if (outside !== undefined && wordsOf(outside).some((word) => known.drugs.has(word))) return undefined;
  const words = namingWords(portion.replace(/\([^()]*\)/g, " "));
  if (words.length === 0) {
    const [first, second] = namingWords(behind);
    return first !== undefined && !isOwn(first) && (second === undefined || !isOwn(second)) && looksLikeDrug(first)
      ? first
      : undefined;
  }
  if (saysOtherKind(portion, recipe, lookup) && words.some((word) => known.drugs.has(word) && !isSaltWord(word)))
    return words.join(" ");
  const salt = saltOf(words);
  if (salt) {
    const isNamed = names.some((each) => salt.every((word) => each.has(plain(word))));
    // Both ions may be the fluid's, as those of Ringer's solution are.
    if (isNamed || salt.every((word) => isHeld(plain(word))) || known.drugs.has(salt[0]!)) return undefined;
    return salt.join(" ");
  }
  // `Argipressin (vasopressin)`, `norepinephrine/noradrenaline`.
  if (wordsOf(portion).some((word) => isOwn(word) && !isSaltWord(word))) return undefined;
  const strange = words.filter((word) => looksLikeDrug(word));
  return strange.length > 0 && words.every((word) => looksLikeDrug(word) || isSaltWord(word) || isMetal(word))
    ? words.join(" ")
    : undefined;
}

/** Words of a stretch that may name something. */
const namingWords = remembered((stretch: string): readonly string[] =>
  wordsOf(stretch).filter(
    (word) =>
      !/^\d/.test(word) && !isOfPreparation(word) && !besideNames.has(word) && findUnit(word).unit === undefined,
  ),
);

const plain = (word: string) => word.replace("sulphate", "sulfate");

/** Acids whose salts are medicines too. */
const otherAcids: ReadonlySet<string> = new Set("bicarbonate nitrite thiosulfate selenite".split(" "));

/** `Zinc sulfate`, and nothing else. */
function saltOf(words: readonly string[]): readonly [string, string] | undefined {
  const [metal, acid, third] = words;
  if (metal === undefined || acid === undefined || third !== undefined) return undefined;
  if (!isMetal(metal) || isMetal(acid) || !(isSaltWord(acid) || otherAcids.has(acid))) return undefined;
  // A line may speak of the commonest fluid of all.
  return metal === "sodium" && acid === "chloride" ? undefined : [metal, acid];
}

/** What fluids and products hold by their labels. */
function heldNames(recipe: Recipe, lookup: Lookup): ReadonlySet<string> {
  const ofFluids = ownNames(recipe, lookup).fluids.flatMap(
    (name) => lookup.find("fluid", name)?.facts.all("contains") ?? [],
  );
  const ofStocks = recipe.materials.flatMap(({ item }) => lookup.find("stock", item.name)?.facts.all("contains") ?? []);
  return new Set(
    [...ofFluids.map(({ slots }) => slots.what), ...ofStocks.map(({ slots }) => slots.what)].flatMap(({ name }) =>
      wordsOf(name),
    ),
  );
}
