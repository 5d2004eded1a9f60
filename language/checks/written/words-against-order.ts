/** What a title or a line of the label says in words (drug, fluid, vein, patient), held against the order. */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Fluid, Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { isMetal } from "./drug-like-words.ts";
import { isSaltWord } from "./salt-words.ts";

export interface Contradiction {
  /** In the words of the text. */
  said: string;
  ordered: string;
  /** Who says so, where it is not the order. */
  whole?: string;
}

/** A warning names what is not meant: `never intrathecal`, `not faster than 10 mL/h`; and an antidote is given in its own way. */
const speaksOfOthers =
  /\b(?:antidote|at hand|at the bedside|standby|extravasation|anaphyla\w+|overdose|toxicity|not|never|no|nor|non|fatal|other|except|avoid|without|before|after|then|instead|unless|either|least|most|minimum|max|maximum|than|if|when)\b/i;

/** Patterns with what each means, and one that tells at once whether any of them is met. */
export interface Words {
  any: RegExp;
  each: readonly Meant[];
}

/** A pattern, what it means, and a shorter pattern without which it is never met: the joined one is compiled at every start. */
export type Meant = readonly [pattern: RegExp, meaning: string, stem?: string];

export function words(each: readonly Meant[]): Words {
  const stems = new Set(each.map(([pattern, , stem]) => stem ?? pattern.source));
  return { any: new RegExp([...stems].join("|"), "i"), each };
}

const veins = words([
  [
    /\bcentral(?: venous| or \w+)? (?:line|veins?|access|catheter|use|only|infusion|administration)\b|(?<=^|[(,;]\s*)central(?=\s*(?:[),.;]|$))/i,
    "central",
    "central",
  ],
  // A catheter whose tip lies in a central vein.
  [/\b(?:PICC|CVC|CVAD)s?\b/, "central"],
  [
    /\bperipheral(?: venous| or \w+)? (?:line|veins?|access|cannula|catheter|use|only|infusion|administration|IV)\b|(?<=^|[(,;]\s*)peripheral(?=\s*(?:[),.;]|$))/i,
    "peripheral",
    "peripheral",
  ],
]);

export function accessContradicted(text: string, recipe: Recipe): Contradiction | undefined {
  const [access, second] = recipe.order?.all("access") ?? [];
  // Where the vein depends on the patient or the dose a text may name either.
  return second ? undefined : wordContradicted(text, veins, access?.slots.access.choice);
}

/** Silent where the ordered word stands there too, and where a sentence speaks of what is not meant. */
export function wordContradicted(
  text: string,
  meant: Words,
  ordered: string | undefined,
  isOrdered = (meaning: string) => meaning === ordered,
): Contradiction | undefined {
  if (ordered === undefined) return undefined;
  const said = assertions(text).flatMap((sentence) => wordsSaid(sentence, meant));
  if (said.length === 0 || said.some(({ meaning }) => isOrdered(meaning))) return undefined;
  return { said: said[0]!.said, ordered };
}

/** Each meaning that a sentence has, in the words that say it. */
export function wordsSaid(sentence: string, { any, each }: Words): { said: string; meaning: string }[] {
  if (!any.test(sentence)) return [];
  return each.flatMap(([pattern, meaning]) => {
    const found = pattern.exec(sentence);
    return found ? [{ said: found[0].trim(), meaning }] : [];
  });
}

/** A full stop behind a figure or in `s.c.` ends nothing. */
export const sentencesIn = remembered(
  (text: string): readonly string[] =>
    text.split(/(?<=\D)(?<!\.[a-z])[.;!?](?=\s|$)|(?<=\d)[.;!?](?=\s+\D|$)|\s[-–—]+\s/iu),
  mostSentences,
);

/** `For intravenous use only. Fatal by any other route.`: the warning behind it takes nothing from what the first sentence says. */
export const assertions = remembered(
  (text: string): readonly string[] =>
    sentencesIn(text).flatMap((sentence) => {
      if (!speaksOfOthers.test(sentence)) return [sentence];
      const use = /\bfor (?:[a-z]+ )?[a-z]+ (?:use|injection|infusion|administration)\b/i.exec(sentence);
      // What it is for is said before the warning begins.
      return use && !speaksOfOthers.test(sentence.slice(0, use.index + use[0].length)) ? [use[0]] : [];
    }),
  mostSentences,
);

/** What is ordered or stands on the bench. */
export interface OwnNames {
  fluids: readonly string[];
  /** The words of each name of a drug or fluid, salts and names for people included. */
  names: readonly ReadonlySet<string>[];
  words: OwnWords;
}

/** All words of a recipe's drugs and fluids. */
export interface OwnWords {
  drugs: ReadonlySet<string>;
  fluids: ReadonlySet<string>;
}

/** The title and each line of the label ask in turn, for every piece of a range, so the last answer is kept. */
const lastOwn = new WeakMap<Lookup, OwnNames & { recipe: Recipe }>();

export function ownNames(recipe: Recipe, lookup: Lookup): OwnNames {
  const last = lastOwn.get(lookup);
  if (last?.recipe === recipe) return last;
  const fluids = fluidsOf(recipe, lookup);
  const wordsIn = (kind: "drug" | "fluid", names: readonly string[]) =>
    names.flatMap((name) => wordsOfEach(namesOf(kind, name, lookup)));
  const [ofDrugs, ofFluids] = [wordsIn("drug", orderedDrugs(recipe)), wordsIn("fluid", fluids)];
  const words = { drugs: together(ofDrugs), fluids: together(ofFluids) };
  const own = { recipe, fluids, names: [...ofDrugs, ...ofFluids], words };
  lastOwn.set(lookup, own);
  return own;
}

function together(sets: readonly ReadonlySet<string>[]): ReadonlySet<string> {
  const [only, second] = sets;
  if (only && !second) return only;
  const all = new Set<string>();
  for (const set of sets) for (const word of set) all.add(word);
  return all;
}

export function ownWords(recipe: Recipe, lookup: Lookup): OwnWords {
  return ownNames(recipe, lookup).words;
}

/** Words of a declared name that say how the product comes: `sodium chloride 23.4 % concentrate`. */
const ofProducts: ReadonlySet<string> = new Set("concentrate concentrated solution sterile strong".split(" "));

/** Whether the text holds a word of the one ordered drug; undefined where several are ordered, or its name has no word to look for. */
export function namesItsDrug(text: string, recipe: Recipe, lookup: Lookup): boolean | undefined {
  const [only, second] = orderedDrugs(recipe);
  if (only === undefined || second !== undefined || !recipe.order?.one("drug")) return undefined;
  const drug = lookup.find("drug", only);
  if (!drug) return undefined;
  const telling = namesOf("drug", only, lookup)
    .flatMap(wordsOf)
    .filter((word) => /^[a-z]{4}/.test(word) && !isSaltWord(word) && !ofProducts.has(word));
  // Words of another alphabet, or with marks on their letters, are not laid against plain ones.
  if (/[^\P{L}A-Za-z]/u.test(text)) return undefined;
  // At the start of a word: noradrenaline is no adrenaline.
  const plain = ` ${inOneSpelling(text.toLowerCase()).replace(/[^a-z0-9]+/g, " ")}`;
  return telling.length === 0 ? undefined : telling.some((word) => plain.includes(` ${word}`));
}

/** What the order names as diluent, and what stands on the bench. */
export function fluidsOf(recipe: Recipe, lookup: Lookup): string[] {
  const diluents = (recipe.order?.all("diluent") ?? []).map((f) => f.slots.fluid.name);
  const stood = recipe.materials.flatMap(
    ({ item }) => lookup.find("stock", item.name)?.facts.one("fluid")?.slots.fluid.name ?? [],
  );
  return [...new Set([...diluents, ...stood])];
}

/** How the order says that one drug is in the container and nothing else; undefined where something is. */
export function undilutedBy(recipe: Recipe, lookup: Lookup): string | undefined {
  const { order } = recipe;
  const [, second] = orderedDrugs(recipe);
  if (!order || second !== undefined || fluidsOf(recipe, lookup).length > 0) return undefined;
  const method = order.one("method")?.slots.method.choice;
  return method === "undiluted" ? "method undiluted" : method && "no diluent";
}

/** Of a drug with its salts and the form it is counted as. */
export function namesOf(kind: "drug" | "fluid", name: string, lookup: Lookup): readonly string[] {
  const declared = kind === "drug" ? lookup.find("drug", name) : lookup.find("fluid", name);
  return declared ? namesOfDeclared(declared) : [name];
}

export const namesOfDeclared = keptWith((declared: Drug | Fluid): readonly string[] => {
  const named = declared.kind === "drug" ? declared.facts.one("name") : declared.facts.one("name");
  const text = named?.slots.text.text;
  const { base, salts } = declared.kind === "drug" ? declared.substance : { base: undefined, salts: [] };
  const names = [declared.name.name, ...(text === undefined ? [] : [text]), ...(base ? [base] : [])];
  return [...names, ...salts.map((s) => s.name)];
});

/** The words of each name. */
const wordsOfEach = keptWith((names: readonly string[]): readonly ReadonlySet<string>[] =>
  names.map((name) => new Set(wordsOf(name))),
);

/** `Potassium phosphates` are called `potassium phosphate` too. */
export function inOneSpelling(small: string): string {
  return small.replaceAll("sulphate", "sulfate").replaceAll("phosphates", "phosphate");
}

/** In small letters and one spelling; figures stay whole (`0.9`). */
export const wordsOf = remembered(
  (text: string): readonly string[] => inOneSpelling(text.toLowerCase()).match(/[a-z0-9]+(?:\.\d+)?/g) ?? [],
);

/** `Vancomycin hydrochloride 1 g`, of which the library knows no salt: the name, and a salt behind it. */
const withSalt = /([A-Za-z]{4,}) (?:sodium )?([A-Za-z]+)\s*[:=(]*\s*$/;

/** Whether the last word before a figure is one of the drug's names. */
export function isNamedLast(before: string, drug: string, lookup: Lookup): boolean {
  const last = wordsOf(before).findLast((word) => word !== "base");
  if (last === undefined) return false;
  const isOfName = (word: string) => namesOf("drug", drug, lookup).some((name) => wordsOf(name).includes(word));
  if (isOfName(last)) return true;
  const [, name, salt] = isSaltWord(last) ? (withSalt.exec(before.toLowerCase()) ?? []) : [];
  // Salts of a metal are other drugs.
  return name !== undefined && salt === last && !isSaltWord(name) && !isMetal(name) && isOfName(name);
}
