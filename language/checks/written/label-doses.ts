/** Amounts of an ordered drug that a line of the label repeats, laid against the ordered dose. */
import { kindOf } from "../../bench/amounts.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { showQuantity, volumeOf } from "../../quantities/quantity.ts";
import { isBare, isEndOfRange } from "./bare-figures.ts";
import { containedIn } from "./contained.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { figuresOfEquations } from "./label-equations.ts";
import { isInAllOfIt, strengthPairs } from "./label-volumes.ts";
import { isSaltWord } from "./salt-words.ts";
import { matchesDose, near } from "./title-amounts.ts";
import { dosesGiven, moietyContradicted, ofWhole, undeclaredForm } from "./undeclared-forms.ts";
import { assertions, type Contradiction, isNamedLast, namesOf, ownWords, wordsOf } from "./words-against-order.ts";

/** An upper end, a part of it, or what is given in a time is another amount than the container's. */
const otherAmount = /\b(?:exceed\w*|up to|maxim\w*|limit|dilut\w*|reconstitut\w*|bolus|loading|vials?|ampoules?)\b/i;
/** `2 g per bag` is what the container holds. */
const isPer =
  /^\s*(?:\/|per\b(?! (?:bag|syringe|bottle|infusor|cassette|container)\b)|every\b|an?\b|each\b|daily\b|hourly\b)/i;

/** `contains magnesium sulfate 40 g` or `Contains 40 g` on a bag for 4 g: the drug is named in the same breath, or nothing else is. */
export function doseContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  if (runs.some((run) => run.doses.some(isPerTime))) return undefined;
  const use = recipe.order?.one("use")?.slots.use.choice;
  // Of a part of the container no one amount is the label's, but for what is in all of it: `100 mg in 100 mL`, `contains 100 mg`.
  const isOfPart = use === "part-of-container" || use === "titrated";
  const drugs = orderedDrugs(recipe);
  const own = ownWords(recipe, lookup);
  for (const sentence of assertions(text)) {
    if (otherAmount.test(sentence)) continue;
    const judgedBefore: TextFigure[] = [];
    for (const figure of figuresIn(sentence)) {
      if (isPer.test(figure.after) || isEndOfRange(figure) || figuresOfEquations(sentence).has(figure)) continue;
      const given = dosesGiven(runs);
      const part = moietyContradicted(figure, sentence, given, recipe, lookup);
      if (part) return { said: `${figure.written} of ${part.form}`, ordered: ofWhole(part, given) };
      if (containedIn(figure, recipe, runs, lookup)) continue;
      const byVolume = isOfPart ? undefined : volumeOfDrugContradicted(figure, recipe, runs, lookup);
      if (byVolume) return byVolume;
      if (isOfPart && !isInAllOfIt(figure, recipe, runs) && !isOfContents(figure, own.drugs)) continue;
      if (isMetalOfAcid(figure, recipe, lookup)) continue;
      const isNamed = drugs.some(
        (drug) => isNamedLast(figure.before, drug, lookup) || isAcidLast(figure, drug, lookup),
      );
      // `Contains 40 g`. Behind another figure it may be anybody's, but for `12 mg, 30 mg and 20 mg` of several drugs.
      const isFirst = !(drugs.length > 1 ? /\beach\b|\bm?l\b/i : /\d|\beach\b|\bm?l\b/i).test(figure.before);
      const isAlone = isFirst && isBare(figure, sentence, own);
      if (!isNamed && !isAlone && !judgedBefore.some((first) => saysAgain(first, figure))) continue;
      const judged = matchesDose(figure, sentence, recipe, runs, lookup);
      if (judged) judgedBefore.push(figure);
      if (!judged || judged.fits || undeclaredForm(figure, sentence, given, recipe, lookup)) continue;
      const { form, counter, known } = judged;
      const { written } = figure;
      // `noradrenaline tartrate 8 mg` for 8 mg of noradrenaline names what it counts, and that is another amount.
      if (form && form.base === counter)
        return {
          said: `${written} of ${counter}`,
          ordered: `${written} as ${form.as}, which is ${form.amount} as ${counter}`,
        };
      if (form || strengthPairs(sentence, recipe, runs, lookup).has(figure)) continue;
      return { said: counter === undefined ? written : `${written} of ${counter}`, ordered: known.join(" and ") };
    }
  }
  return undefined;
}

/** `Contains ethanol 96 mL` where 9.6 mL of it are ordered; its product and the whole container have volumes of their own. */
function volumeOfDrugContradicted(
  { before, written, quantity }: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const said = volumeOf(quantity);
  const name = said && orderedDrugs(recipe).find((drug) => isNamedLast(before, drug, lookup));
  if (!said || name === undefined) return undefined;
  const ordered = runs.flatMap(({ doses }) => doses.flatMap((dose) => (dose.drug === name && dose.given) || []));
  const given = ordered.flatMap((dose) => volumeOf(dose) ?? []);
  if (given.length === 0) return undefined;
  const moved = runs.flatMap(({ steps, finals }) => [
    ...steps.flatMap(({ movements }) => movements.map((each) => each.moved)),
    ...finals.map(({ liquid }) => liquid.volume),
  ]);
  const isKnown = [...given, ...moved].some((each) => each.minus(said).abs().isAtMost(each.times(near)));
  return isKnown ? undefined : { said: written, ordered: ordered.map((dose) => showQuantity(dose)).join(" and ") };
}

/** Two of the metal stand beside one acid, or one. */
const severalMetals = /(?:phosphate|citrate|sulfate|sulphate|tartrate)$/;

/** `Sodium 20 mmol` of 10 mmol of sodium glycerophosphate, where the monograph does not say how much sodium that brings. */
function isMetalOfAcid({ before }: TextFigure, recipe: Recipe, lookup: Lookup): boolean {
  const [last, first] = [...wordsOf(before)].reverse();
  if (last !== "sodium" && last !== "potassium") return false;
  return orderedDrugs(recipe).some((name) => {
    const words = namesOf("drug", name, lookup).flatMap(wordsOf);
    if (!words.includes(last) || (first !== undefined && words.includes(first))) return false;
    const ions = lookup.find("drug", name)?.substance.ions ?? [];
    return words.some((word) => severalMetals.test(word)) && !ions.some((ion) => ion.name === last);
  });
}

/** `Phosphate 10 mmol` of sodium glycerophosphate. A mass of it would be another than the drug's. */
function isAcidLast({ before, quantity }: TextFigure, drug: string, lookup: Lookup): boolean {
  const last = wordsOf(before).at(-1);
  if (last === undefined || !isSaltWord(last) || kindOf(quantity) !== "moles") return false;
  return namesOf("drug", drug, lookup).some((name) => wordsOf(name).some((word) => word.endsWith(last)));
}

const contents = /\b(?:contains?|containing|contents?|holds?|total)\b[^.;]*$/i;

/** `Contains noradrenaline 8 mg`, or a line that has the drug's name before the figure and nothing behind it but what it is in. */
function isOfContents({ before, after }: TextFigure, drugs: ReadonlySet<string>): boolean {
  if (contents.test(before)) return true;
  const words = wordsOf(before);
  return (
    words.length > 0 && words.every((word) => drugs.has(word) || word === "base") && /^\s*(?:$|\(|in\b)/.test(after)
  );
}

/** `4 g (16.2 mmol)`, `8 mmol = 16 mEq`: the same amount in another unit. */
function saysAgain(first: TextFigure, second: TextFigure): boolean {
  if (first.quantity.unit.spelling === second.quantity.unit.spelling) return false;
  const start = first.before.length + first.written.length;
  if (second.before.length <= start) return false;
  const between = second.before.slice(start);
  return between === " (" ? second.after.startsWith(")") : between === " = ";
}

function isPerTime({ per }: Run["doses"][number]): boolean {
  return "time" in per;
}
