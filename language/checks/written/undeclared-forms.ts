/**
 * Figures of a printed text that count a drug in a form of which the library does not say how much is in it: theophylline beside aminophylline,
 * midazolam hydrochloride beside midazolam. Within the bounds of what such forms weigh nothing is known of them; beyond, they are wrong.
 */
import { kindOf } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Drug, Recipe } from "../../model/declaration.ts";
import { keptWith } from "../../model/kept-with.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { isMetal } from "./drug-like-words.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isSame } from "./product-figures.ts";
import { isSaltWord } from "./salt-words.ts";
import { namesNext } from "./title-amounts.ts";
import { namesOfDeclared, wordsOf } from "./words-against-order.ts";

/** Complexes and prodrugs, by a word of their name, with what acts of them. General knowledge of the trade, from memory. */
const activeMoieties: Readonly<Record<string, readonly string[]>> = {
  aminophylline: ["theophylline"],
  ascorbate: ["ascorbic"],
  colistimethate: ["colistin"],
  dimenhydrinate: ["diphenhydramine"],
  folinate: ["folinic"],
  fosaprepitant: ["aprepitant"],
  fosfluconazole: ["fluconazole"],
  fosnetupitant: ["netupitant"],
  fosphenytoin: ["phenytoin"],
  fospropofol: ["propofol"],
  ibandronate: ["ibandronic"],
  isavuconazonium: ["isavuconazole"],
  leucovorin: ["folinic"],
  levofolinate: ["levofolinic", "folinic"],
  mycophenolate: ["mycophenolic"],
  pamidronate: ["pamidronic"],
  parecoxib: ["valdecoxib"],
  propacetamol: ["paracetamol"],
  valproate: ["valproic"],
  zoledronate: ["zoledronic"],
};

/** Share of the whole by weight that the active part is, from colistin (0.4) and aprepitant (0.6) up to what print rounds to the whole. */
const ofMoiety = { from: Exact.of("0.3"), to: Exact.of("0.98") };
/** A metal in its salt: calcium is 0.09 of the gluconate. */
const ofMetal = { from: Exact.of("0.05"), to: Exact.of("0.6") };
/** A salt weighs up to twice the base (noradrenaline tartrate), most a third more at most. */
const ofSalt = { from: Exact.of("1.02"), to: Exact.of("1.35") };
const ofSaltBeside = { from: Exact.of("1.02"), to: Exact.of("2.5") };
/** `Fosphenytoin 1 g (phenytoin equivalents 1 g)`: by custom counted as that. */
const ofEquivalents = { from: Exact.of("0.3"), to: Exact.one };
const equivalents = /\bequivalents?\b|\bPE\b/;
type Bounds = typeof ofMoiety;

interface Forms {
  words: ReadonlySet<string>;
  moieties: ReadonlySet<string>;
}

/** The words of a drug's names, and its moieties that are none of them. */
const formsOf = keptWith((drug: Drug): Forms => {
  const words = new Set(namesOfDeclared(drug).flatMap(wordsOf));
  const moieties = [...words].flatMap((word) => (Object.hasOwn(activeMoieties, word) ? activeMoieties[word]! : []));
  return { words, moieties: new Set(moieties.filter((each) => !words.has(each))) };
});

const before = /((?:[A-Za-z]+[ -]){1,4})\(?[:=]? ?$/;
const behind = /^ ?\(?(?:of |as )?(?:the )?((?:[A-Za-z]+[ -]?){1,3})/;
const endsNames = /^.*\b(?:and|with|plus|in|contains?|containing|holds?|of|equals?|is|to)\b/i;
const beginsOther = /\b(?:and|with|plus|in|per|for|over)\b.*$/i;

/** Words that stand next to the figure: those behind it count it where no other figure follows them. */
function wordsBeside(figure: TextFigure): (readonly string[])[] {
  const front = (before.exec(figure.before)?.[1] ?? "").replace(endsNames, "");
  const back = namesNext.test(figure.after) ? "" : (behind.exec(figure.after)?.[1] ?? "").replace(beginsOther, "");
  return [wordsOf(back), wordsOf(front)].filter((words) => words.length > 0);
}

interface NamedForm {
  form: string;
  /** Where nothing beside it says the amount as the drug is counted; undefined where the name then counts just that. */
  alone: Bounds | undefined;
  beside: Bounds;
  isMoiety?: true;
}

/** `Phenytoin 1 g` alone is no fosphenytoin. */
function isOtherDrug(moiety: string, drug: Drug, text: string): boolean {
  const { words } = formsOf(drug);
  const isOwn = (word: string) => words.has(word) && !isSaltWord(word);
  return [...words].some((word) => word.endsWith(moiety)) && !wordsOf(text).some(isOwn);
}

/** A form that a figure names and that the drug does not declare; no figure is looked at. */
function formNamed(figure: TextFigure, drug: Drug, text: string): NamedForm | undefined {
  const { words: own, moieties } = formsOf(drug);
  const { salts, ions } = drug.substance;
  if (salts.length > 0 && moieties.size === 0) return undefined;
  for (const words of wordsBeside(figure)) {
    const moiety = words.find((word) => moieties.has(word));
    if (moiety !== undefined && !isOtherDrug(moiety, drug, text)) {
      const bounds = equivalents.test(text) ? ofEquivalents : ofMoiety;
      return { form: moiety, alone: bounds, beside: bounds, isMoiety: true };
    }
    const named = words.filter((word) => own.has(word) && !isSaltWord(word));
    if (salts.length > 0 || words.some((word) => !isSaltWord(word) && word !== "base" && !named.includes(word)))
      continue;
    const salt = words.filter(isSaltWord);
    const [only] = named;
    if (salt.length > 0) {
      if (!salt.some((word) => own.has(word)) && !named.some(isMetal))
        return {
          form: only === undefined ? `the ${salt.join(" ")}` : words.join(" "),
          alone: ofSalt,
          beside: ofSaltBeside,
        };
    } else if (only !== undefined && [...own].some(isSaltWord) && !ions.some(({ name }) => name === only)) {
      return { form: words.join(" "), alone: undefined, beside: isMetal(only) ? ofMetal : ofMoiety };
    }
  }
  return undefined;
}

export interface UndeclaredForm {
  drug: string;
  form: string;
}

/**
 * @param known what the figure would have to be, counted as the drug is
 * @returns undefined also where no such form could come to the figure
 */
export function undeclaredForm(
  figure: TextFigure,
  text: string,
  known: readonly Quantity[],
  recipe: Recipe,
  lookup: Lookup,
): UndeclaredForm | undefined {
  const judged = judge(figure, text, known, recipe, lookup);
  return judged?.isPossible ? judged : undefined;
}

/** `Aminophylline 250 mg (theophylline 250 mg)`: as much of a part as of the whole, or a tenth of it. */
export function moietyContradicted(
  figure: TextFigure,
  text: string,
  known: readonly Quantity[],
  recipe: Recipe,
  lookup: Lookup,
): UndeclaredForm | undefined {
  if (!hasMoieties(recipe, lookup)) return undefined;
  const judged = judge(figure, text, known, recipe, lookup);
  return judged?.isMoiety && !judged.isPossible ? judged : undefined;
}

/** Most drugs have none. */
function hasMoieties(recipe: Recipe, lookup: Lookup): boolean {
  return orderedDrugs(recipe).some((name) => {
    const drug = lookup.find("drug", name);
    return drug !== undefined && formsOf(drug).moieties.size > 0;
  });
}

/** Whether a figure names such a form at all, whatever it comes to. */
export function namesUndeclaredForm(figure: TextFigure, text: string, recipe: Recipe, lookup: Lookup): boolean {
  if (kindOf(figure.quantity) !== "mass") return false;
  return orderedDrugs(recipe).some((name) => {
    const drug = lookup.find("drug", name);
    return drug !== undefined && formNamed(figure, drug, text) !== undefined;
  });
}

/** Undefined where no such form is named, or nothing is known that it could be a share of. */
function judge(
  figure: TextFigure,
  text: string,
  known: readonly Quantity[],
  recipe: Recipe,
  lookup: Lookup,
): (UndeclaredForm & { isMoiety: boolean; isPossible: boolean }) | undefined {
  if (kindOf(figure.quantity) !== "mass") return undefined;
  for (const name of orderedDrugs(recipe)) {
    const drug = lookup.find("drug", name);
    const named = drug && formNamed(figure, drug, text);
    const wholes = named ? known.filter((each) => isAlike(each, figure.quantity) && each.value.isPositive()) : [];
    if (!named || wholes.length === 0) continue;
    const isPossible = wholes.some((whole) => {
      const isBeside = figuresIn(text).some(({ quantity }) => isSame(quantity, whole));
      const bounds = isBeside ? named.beside : named.alone;
      const share = inBase(figure.quantity).over(inBase(whole));
      return bounds !== undefined && share.isAtLeast(bounds.from) && share.isAtMost(bounds.to);
    });
    return { drug: name, form: named.form, isMoiety: named.isMoiety === true, isPossible };
  }
  return undefined;
}

function isAlike(one: Quantity, other: Quantity): boolean {
  return one.unit.dimension === other.unit.dimension;
}

/** The ordered doses as they are given. */
export function dosesGiven(runs: readonly Run[]): Quantity[] {
  return runs.flatMap(({ doses }) => doses.flatMap(({ given }) => given ?? []));
}

/** `250 mg of aminophylline`: of what the form is a part. */
export function ofWhole({ drug }: UndeclaredForm, given: readonly Quantity[]): string {
  return `${[...new Set(given.map((each) => showQuantity(each, 4)))].join(" and ")} of ${drug}`;
}

/** Whether a word names what acts of an ordered drug, and the text does not mean the drug of that name. */
export function isMoietyOf(word: string, text: string, recipe: Recipe, lookup: Lookup): boolean {
  return orderedDrugs(recipe).some((name) => {
    const drug = lookup.find("drug", name);
    return drug !== undefined && formsOf(drug).moieties.has(word) && !isOtherDrug(word, drug, text);
  });
}
