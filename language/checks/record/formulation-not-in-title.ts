import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example, standardAnd } from "../example.ts";
import { type Formulation, formulationsOf, formulationsUnsaid, substanceWords } from "../written/formulations.ts";
import { isSaltWord } from "../written/salt-words.ts";
import { substanceContradicted } from "../written/substances-named.ts";
import { namesOf, wordsOf } from "../written/words-against-order.ts";

interface NotSaid {
  at: Spot;
  drug: string;
  /** One of the library that the title may be read as; undefined where there is only this one. */
  other: string | undefined;
  /** Words that the title would say it by. */
  say: string;
}

const conventional = /\b(?:conventional|standard|plain|non-?liposomal|deoxycholate|desoxycholate)\b/i;

const liposomal = `
drug liposomal-magnesium-sulfate {
  source      guide "magnesium"
  name        "liposomal magnesium sulfate"
  invented    yes
  nature      lipid-complex
  high-alert  no
  hazard      not-hazardous
  light       not-sensitive
}
`;

export const formulationNotInTitle = recipeCheck<NotSaid>({
  name: "formulation-not-in-title",
  family: "record",
  severity: "warning",
  title: "A title that does not say which formulation of the drug it is",
  why: "A liposomal drug is dosed otherwise than the conventional one; each has been given for the other, and patients died.",
  source: "common practice",
  bad: standardAnd(liposomal),
  good: example(["Magnesium sulfate 4 g in", "Conventional magnesium sulfate 4 g in"]) + liposomal,
  *find({ recipe, lookup }) {
    const title = recipe.facts.one("title")?.slots.text;
    if (!title?.text.trim() || substanceContradicted(title.text, recipe, lookup)) return;
    for (const drug of orderedDrugs(recipe)) {
      const found = otherNotExcluded(title.text, drug, lookup) ?? ownNotSaid(title.text, drug, lookup);
      if (found) yield { at: title, drug, ...found };
    }
  },
  say: ({ drug, other, say }) => ({
    text:
      other === undefined
        ? `The order is for ${drug}, and the title does not say ${say}; without it the title names another medicine, which is dosed otherwise. Write ${say} in the title.`
        : `The library knows ${drug} and ${other}, which are no substitute for each other, and the title does not say which it is. Write ${say} in the title.`,
  }),
});

function ownNotSaid(title: string, drug: string, lookup: Lookup) {
  const unsaid = formulationsUnsaid(title, drug, lookup);
  return unsaid.length > 0 ? { other: undefined, say: inWords(unsaid) } : undefined;
}

function otherNotExcluded(title: string, drug: string, lookup: Lookup) {
  const own = ofConventional(drug, lookup);
  for (const other of otherFormulations(drug, own, lookup)) {
    const say = whatToSay(own, ofConventional(other, lookup));
    if (!say.isSaidBy(title) && !isToldApart(title, drug, other, lookup)) return { other, say: say.words };
  }
  return undefined;
}

/** Without those that have names of their own beside the plain drug, as the kinds of insulin do. */
function ofConventional(drug: string, lookup: Lookup): readonly Formulation[] {
  return formulationsOf(drug, lookup).filter(({ hasConventional }) => hasConventional);
}

function inWords(formulations: readonly Formulation[]): string {
  return formulations.map(({ called }) => called).join(" ");
}

/** The words that tell one formulation from another, and whether a title says them. */
function whatToSay(
  own: readonly Formulation[],
  theirs: readonly Formulation[],
): { words: string; isSaidBy: (title: string) => boolean } {
  if (own.length === 0) return { words: "conventional", isSaidBy: (title) => conventional.test(title) };
  const lacking = own.filter((each) => !theirs.includes(each));
  if (lacking.length > 0)
    return {
      words: inWords(lacking),
      isSaidBy: (title) => lacking.every(({ words }) => words.test(title)),
    };
  const [more] = theirs.filter((each) => !own.includes(each));
  const words = `non-${more!.called}`;
  return { words, isSaidBy: (title) => title.toLowerCase().includes(words) };
}

/** Drugs of the library whose names share the substance with this one and differ in the formulation. */
function otherFormulations(drug: string, own: readonly Formulation[], lookup: Lookup): string[] {
  const substance = substanceWords(drug, lookup);
  return lookup.names("drug").filter((name) => {
    if (name === drug || !name.split("-").some((word) => substance.has(word))) return false;
    const theirs = ofConventional(name, lookup);
    const isSame = theirs.length === own.length && theirs.every((each) => own.includes(each));
    return !isSame && isOneSubstance(substance, substanceWords(name, lookup));
  });
}

/** All that one of them names is named by the other: magnesium sulfate is no magnesium chloride. */
function isOneSubstance(one: ReadonlySet<string>, another: ReadonlySet<string>): boolean {
  if (one.size === 0 || another.size === 0) return false;
  const [fewer, more] = one.size <= another.size ? [one, another] : [another, one];
  return [...fewer].every((word) => more.has(word));
}

/** A word of the drug's own name that the other one's lacks. Both may be one salt, whatever their names say of it. */
function isToldApart(title: string, drug: string, another: string, lookup: Lookup): boolean {
  const said = new Set(wordsOf(title));
  const theirs = new Set(namesOf("drug", another, lookup).flatMap(wordsOf));
  return namesOf("drug", drug, lookup)
    .flatMap(wordsOf)
    .some((word) => /^[a-z]{4}/.test(word) && !isSaltWord(word) && said.has(word) && !theirs.has(word));
}
