/**
 * Words by which a drug's name tells that it is another medicine than the bare substance: its formulation (`liposomal`), the kind of an
 * insulin, what an antibody carries, an antidote made of antibodies, the ester or salt of a depot. Common knowledge of the trade, from memory.
 */
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { isSaltWord } from "./salt-words.ts";
import { namesOfDeclared, wordsOf } from "./words-against-order.ts";

export interface Formulation {
  called: string;
  words: RegExp;
  /** There is a conventional one too, which has to say so where both are known. */
  hasConventional: boolean;
}

const formulation = (called: string, pattern: string): Formulation => ({
  called,
  words: new RegExp(pattern, "i"),
  hasConventional: true,
});
const kind = (called: string, pattern = `\\b${called}\\b`): Formulation => ({
  ...formulation(called, pattern),
  hasConventional: false,
});

const all: readonly Formulation[] = [
  formulation("liposomal", "\\bliposom\\w*|\\bpld\\b|\\bl-?amb\\b"),
  formulation("pegylated", "\\bpegylated\\b|\\bpld\\b"),
  formulation("lipid complex", "\\blipid[- ]complex\\b|\\bablc\\b"),
  formulation(
    "albumin-bound",
    "\\bnab\\b|\\b(?:albumin|protein)[- ]bound\\b|\\bpaclitaxel[- ]albumin\\b|\\balbumin[- ]nanoparticles?\\b",
  ),
  ..."aspart degludec detemir glargine glulisine icodec lente lispro".split(" ").map((word) => kind(word)),
  kind("isophane", "\\b(?:isophane|nph)\\b"),
  ..."deruxtecan emtansine govitecan mafodotin ozogamicin soravtansine tesirine tirumotecan tiuxetan vedotin"
    .split(" ")
    .map((word) => kind(word)),
  ..."benzathine procaine decanoate undecanoate depot".split(" ").map((word) => kind(word)),
  kind("fab", "\\bfab\\b|\\bantibody fragments?\\b"),
  kind("enantate", "\\benanth?ate\\b"),
  kind("embonate", "\\b(?:embonate|pamoate)\\b"),
  kind("microspheres", "\\bmicrospheres?\\b"),
  kind("prolonged-release", "\\b(?:prolonged|extended|modified|sustained|controlled|slow)[- ]release\\b"),
];

const any = new RegExp(all.map(({ words }) => words.source).join("|"), "i");
/** Words of these names that stand alone in a key: `amphotericin-lipid`. */
const others: ReadonlySet<string> = new Set("lipid complex albumin protein bound conventional encapsulated".split(" "));

/** Those that a text says. */
export function formulationsIn(text: string): readonly Formulation[] {
  return any.test(text) ? all.filter(({ words }) => words.test(text)) : [];
}

/** Those that the names of a drug tell. */
const ofDeclared = keptWith((drug: Drug): readonly Formulation[] =>
  formulationsIn(namesOfDeclared(drug).join(" ").replaceAll("-", " ")),
);

export function formulationsOf(name: string, lookup: Lookup): readonly Formulation[] {
  const drug = lookup.find("drug", name);
  return drug ? ofDeclared(drug) : formulationsIn(name.replaceAll("-", " "));
}

/** Words of its names that tell the substance, without those of its formulation, of a salt, and short ones. */
const substanceOf = keptWith(
  (drug: Drug): ReadonlySet<string> =>
    new Set(
      namesOfDeclared(drug)
        .flatMap(wordsOf)
        .filter((word) => /^[a-z]{4}/.test(word) && !isSaltWord(word) && !any.test(word) && !others.has(word)),
    ),
);

export function substanceWords(name: string, lookup: Lookup): ReadonlySet<string> {
  const drug = lookup.find("drug", name);
  return drug ? substanceOf(drug) : new Set();
}

/** What a text would have to say of a drug and does not; nothing where it does not name the drug, or says another formulation. */
export function formulationsUnsaid(text: string, drug: string, lookup: Lookup): readonly Formulation[] {
  const own = formulationsOf(drug, lookup);
  if (own.length === 0) return [];
  const said = formulationsIn(text);
  if (said.some((each) => !own.includes(each))) return [];
  const substance = substanceWords(drug, lookup);
  return wordsOf(text).some((word) => substance.has(word)) ? own.filter((each) => !said.includes(each)) : [];
}

/** A formulation or a kind that none of the ordered drugs is: `insulin glargine` for plain insulin. */
export function saysOtherKind(text: string, recipe: Recipe, lookup: Lookup): boolean {
  const said = formulationsIn(text);
  if (said.length === 0) return false;
  const own = orderedDrugs(recipe).flatMap((drug) => formulationsOf(drug, lookup));
  return said.some((each) => !own.includes(each));
}
