import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example, standardAnd } from "../example.ts";
import { isSaltWord } from "../written/salt-words.ts";
import { substanceContradicted } from "../written/substances-named.ts";
import { namesOf, wordsOf } from "../written/words-against-order.ts";

interface NotSaid {
  at: Spot;
  drug: string;
  other: string;
  /** Words that the title would say it by. */
  say: string;
}

/** Formulations that make another medicine of a drug, by the words of its name. Common knowledge of the trade, from memory. */
const formulations: readonly { called: string; words: RegExp }[] = [
  { called: "liposomal", words: /\bliposom\w*/i },
  { called: "pegylated", words: /\bpegylated\b|\bpld\b/i },
  { called: "lipid complex", words: /\blipid[- ]complex\b/i },
  { called: "albumin-bound", words: /\bnab\b|\b(?:albumin|protein)[- ]bound\b/i },
];

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
  title: "A title that does not say which of two formulations of the drug it is",
  why: "A liposomal drug is dosed otherwise than the conventional one; each has been given for the other, and patients died.",
  source: "common practice",
  bad: standardAnd(liposomal),
  good: example(["Magnesium sulfate 4 g in", "Conventional magnesium sulfate 4 g in"]) + liposomal,
  *find({ recipe, lookup }) {
    const title = recipe.facts.one("title")?.slots.text;
    if (!title?.text.trim() || substanceContradicted(title.text, recipe, lookup)) return;
    for (const drug of orderedDrugs(recipe)) {
      const own = formulationsOf(drug, lookup);
      for (const other of otherFormulations(drug, own, lookup)) {
        const say = whatToSay(own, formulationsOf(other, lookup));
        if (say.isSaidBy(title.text) || isToldApart(title.text, drug, other, lookup)) continue;
        yield { at: title, drug, other, say: say.words };
        break;
      }
    }
  },
  say: ({ drug, other, say }) => ({
    text: `The library knows ${drug} and ${other}, which are no substitute for each other, and the title does not say which it is. Write ${say} in the title.`,
  }),
});

type Formulation = (typeof formulations)[number];

function formulationsOf(drug: string, lookup: Lookup): readonly Formulation[] {
  const text = namesOf("drug", drug, lookup).join(" ").replaceAll("-", " ");
  return formulations.filter(({ words }) => words.test(text));
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
      words: lacking.map(({ called }) => called).join(" "),
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
    const theirs = formulationsOf(name, lookup);
    const isSame = theirs.length === own.length && theirs.every((each) => own.includes(each));
    return !isSame && isOneSubstance(substance, substanceWords(name, lookup));
  });
}

/** Words that name the substance, without those of its formulation, of a salt, and short ones. */
function substanceWords(drug: string, lookup: Lookup): ReadonlySet<string> {
  const words = namesOf("drug", drug, lookup).flatMap(wordsOf);
  const isFormulation = (word: string) => formulations.some(({ words }) => words.test(word)) || other.has(word);
  return new Set(words.filter((word) => /^[a-z]{4}/.test(word) && !isSaltWord(word) && !isFormulation(word)));
}

const other: ReadonlySet<string> = new Set("lipid complex albumin protein bound conventional encapsulated".split(" "));

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
