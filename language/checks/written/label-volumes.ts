/** The volume that a printed line gives the preparation or its container, laid against what the recipe states and makes. */
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { measuresOf } from "../stated-measures.ts";
import { amountsInVolumes } from "./amounts-in-volumes.ts";
import { isBare, isEndOfRange, ofAnother } from "./bare-figures.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { withoutFluids } from "./fluids-named.ts";
import { figuresOfEquations } from "./label-equations.ts";
import { isAmount, isNear, shownAll, strengthsOf } from "./label-figures.ts";
import { writtenInPortions } from "./stock-portions.ts";
import { matchesDose } from "./title-amounts.ts";
import { isOfIntermediate } from "./title-wholes.ts";
import {
  assertions,
  type Contradiction,
  isNamedLast,
  type OwnWords,
  ownWords,
  wordsOf,
} from "./words-against-order.ts";

const millilitre = findUnit("mL").unit!;

/** As print rounds. */
const upTo = Exact.of("1.05");

/** What is done with it before or afterwards has another volume. */
const otherVolume =
  /\b(?:dilut\w*|reconstitut\w*|dissolv\w*|exceed\w*|up to|maxim\w*|add(?:ed)?|withdraw\w*|discard\w*|antidote|revers\w*|at hand|standby|nearby|bedside)\b/i;
const container = /^\s*(?:bag|syringe|bottle|infusor|cassette|reservoir)\b/i;
const isCalledAfter = /\b(?:bag|syringe|bottle|infusor|cassette|reservoir) of\s*$/i;
const isPart =
  /^\s*(?:\/|per\b|every\b|bolus\w*|portions?\b|aliquots?\b|increments?\b|doses?\b|steps?\b|at a time\b|daily\b)/i;

/** `Made up to 100 mL`, `diluted to a total of 100 mL`: all of it, where nobody is told to do so later. */
const madeUpTo =
  /\b(?:(?:made|makes?|filled|topped) up|diluted|brought|q\.?s\.?)(?: with [a-z ]+(?: \d[\d.]* ?%)?)? (?:up )?to (?:an? )?(?:(?:total|final) )?(?:volume )?(?:of )?$/i;
const atTheBedside =
  /\b(?:must|should|may|can|could|to be|before|if|further|then|reconstitut\w*|vials?|ampoules?|intermediate|working|bolus|loading|exceed\w*|maxim\w*)\b/i;

/**
 * `Vincristine 2 mg in 100 mL` and `100 mL bag` on a bag of 50 mL.
 * @param ofIons volumes that tell the concentration of an ion, and are judged as that
 */
export function volumeContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
  ofIons: ReadonlySet<TextFigure>,
): Contradiction | undefined {
  if (runs.some((run) => run.unknown)) return undefined;
  const own = ownWords(recipe, lookup);
  for (const sentence of assertions(text)) {
    const isMadeUp = ({ before }: TextFigure) => madeUpTo.test(before) && !atTheBedside.test(sentence);
    const isOther = otherVolume.test(sentence) || ofAnother.test(sentence);
    for (const figure of figuresIn(sentence)) {
      if (figure.quantity.unit.dimension.key !== "volume") continue;
      if (isMadeUp(figure)) {
        const whole = madeUpContradicted(figure, recipe, runs);
        if (whole) return whole;
        continue;
      }
      if (isOther || isEndOfRange(figure)) continue;
      if (
        ofIons.has(figure) ||
        isPart.test(figure.after) ||
        !isOfContainer(figure, own) ||
        figuresOfEquations(sentence).has(figure)
      )
        continue;
      if (writtenInPortions(sentence, recipe, lookup).has(figure.written)) continue;
      const known = volumesOf(recipe, runs);
      if (known.length === 0) return undefined;
      const isCalled = container.test(figure.after) || isCalledAfter.test(figure.before);
      const sizes = sizesOf(runs, isCalled ? ["fill", "capacity"] : ["fill"]);
      const amount = isBesideAmount(figure) ? figuresIn(figure.before).at(-1) : undefined;
      const drawn = isBesideAmount(figure) ? drawnVolumes(runs) : [];
      if ([...known, ...sizes, ...drawn].some((each) => isNear(each, figure.quantity))) continue;
      // `Each press 1 mg (1 mL)` tells a part of it.
      if (amount && strengthPairs(inWords(amount.written, figure), recipe, runs, lookup).size > 0) continue;
      if (strengthPairs(sentence, recipe, runs, lookup).has(figure)) continue;
      const pair = pairedWith(figure, sentence, recipe, runs, lookup);
      return pair ?? { said: figure.written, ordered: shownAll(known), whole: "recipe" };
    }
  }
  return undefined;
}

/**
 * `Heparin 7,500 units, 7.5 mL` where the order states no volume, because the drug is given as it comes: what is in the container in the end.
 * @returns the volumes that it could be, in words; undefined where it is one, or may be another liquid's
 */
export function titleVolumeContradicted(
  figure: TextFigure,
  title: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): string | undefined {
  if (!isVolume(figure.quantity) || runs.some((run) => run.unknown)) return undefined;
  if (otherVolume.test(title) || ofAnother.test(title) || isEndOfRange(figure) || isPart.test(figure.after))
    return undefined;
  const made = volumesOf(recipe, runs);
  // What a powder is dissolved in, and all containers of a batch together, may be told as well.
  const others = [...sizesOf(runs, ["fill", "capacity"]), ...drawnVolumes(runs), ...wholeBatches(runs)];
  if (made.length === 0 || [...made, ...others].some((each) => isNear(each, figure.quantity))) return undefined;
  return strengthPairs(title, recipe, runs, lookup).has(figure) ? undefined : shownAll(made);
}

/** All that is in the container, what the order states of it, or what an intermediate came to. */
function madeUpContradicted(figure: TextFigure, recipe: Recipe, runs: readonly Run[]): Contradiction | undefined {
  const known = [...volumesOf(recipe, runs), ...sizesOf(runs, ["fill"])];
  if (known.length === 0 || known.some((each) => isNear(each, figure.quantity))) return undefined;
  if (isOfIntermediate(figure.quantity, recipe, runs)) return undefined;
  return { said: figure.written, ordered: shownAll(volumesOf(recipe, runs)), whole: "recipe" };
}

/** What stays behind, goes in or fills a lumen is another volume than the whole. */
const wholeVolume =
  /(?:^|[,;:(]\s*|\b(?:total|final|full|whole|overall|bag|syringe|bottle|pump|infusion|preparation|fill|filled)\s+)volume(?: of)?:?\s*$/i;

/** `in 100 mL`, `in sodium chloride 0.9 % 100 mL`, `volume 100 mL`, `100 mL bag`. */
function isOfContainer({ before, after }: TextFigure, { drugs, fluids }: OwnWords): boolean {
  if (container.test(after) || isCalledAfter.test(before) || wholeVolume.test(before)) return true;
  if (isAlone(before, after, drugs) || isBesideAmount({ before, after })) return true;
  const behind = /\bin((?: an?)?(?: total(?: of)?)?[^,;:()]*)$/i.exec(before)?.[1];
  const fillers = new Set(["a", "an", "total", "of"]);
  return (
    behind !== undefined &&
    wordsOf(withoutFluids(behind)).every((w) => fillers.has(w) || /^\d/.test(w) || fluids.has(w))
  );
}

/** `Ropivacaine 2 mg/mL with sufentanil 0.5 mcg/mL, 200 mL`: alone at the end, behind a drug and its strength. */
function isAlone(before: string, after: string, drugs: OwnWords["drugs"]): boolean {
  if (!/[,;]\s*$/.test(before) || !/^\s*[.;]?$/.test(after)) return false;
  const last = figuresIn(before).at(-1);
  return (
    last?.quantity.unit.dimension.key.endsWith("/volume") === true && wordsOf(before).some((word) => drugs.has(word))
  );
}

/** `Heparin 7,500 units, 0.75 mL`, `4 g (8 mL)`, and a line of nothing else: what is in there, or what was drawn of the drug. */
function isBesideAmount({ before, after }: Pick<TextFigure, "before" | "after">): boolean {
  if (!/^\s*[.;)]?\s*$/.test(after)) return false;
  if (before.trim() === "") return true;
  const last = figuresIn(before).at(-1);
  return last !== undefined && isAmount(last.quantity) && /^\s*[,;(]\s*$/.test(last.after);
}

/** Of each step, and in all. */
function drawnVolumes(runs: readonly Run[]): Quantity[] {
  return runs.flatMap(({ steps }) => {
    const drawn = steps
      .map(({ movements }) => movements.filter(({ how }) => how === "draw").map(({ moved }) => moved))
      .filter((moved) => moved.length > 0)
      .map((moved) => moved.reduce((sum, each) => sum.plus(each), Exact.zero));
    const all = drawn.reduce((sum, each) => sum.plus(each), Exact.zero);
    return [...drawn, all].map((value) => ({ value, unit: millilitre })).filter(isVolume);
  });
}

function wholeBatches(runs: readonly Run[]): Quantity[] {
  return runs.map(({ finals }) => ({
    value: finals.reduce((sum, { liquid }) => sum.plus(liquid.volume), Exact.zero),
    unit: millilitre,
  }));
}

/** Whether an amount stands before the volume of the whole container: `100 mg in 100 mL`. */
export function isInAllOfIt({ after }: TextFigure, recipe: Recipe, runs: readonly Run[]): boolean {
  if (!/^\s*in\b/.test(after)) return false;
  const volume = figuresIn(after).find(({ quantity }) => quantity.unit.dimension.key === "volume");
  const known = [...volumesOf(recipe, runs), ...sizesOf(runs, ["fill"])];
  return volume !== undefined && known.some((each) => isNear(each, volume.quantity));
}

/** `10 mg in 1 mL` of which neither is the container's: one strength, told as one. Of `4 g in 10 mL` on a bag of 4 g the volume is wrong. */
function pairedWith(
  volume: TextFigure,
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const pair = amountsInVolumes(sentence).find((each) => each.volume === volume);
  if (!pair || isBeyondAll(volume, recipe, runs) || matchesDose(pair.amount, sentence, recipe, runs, lookup)?.fits)
    return undefined;
  const { amount, strength } = pair;
  const drugs = orderedDrugs(recipe);
  const isBareAmount = drugs.length === 1 && isBare(amount, sentence, ownWords(recipe, lookup));
  const of = drugs.find((drug) => isNamedLast(amount.before, drug, lookup)) ?? (isBareAmount ? drugs[0] : undefined);
  const [real] = of === undefined ? [] : strengthsOf(of, strength, undefined, recipe, runs, lookup);
  if (!real) return undefined;
  const held = { value: real.value.times(inBase(volume.quantity)), unit: amount.quantity.unit };
  return { said: inWords(amount.written, volume), ordered: inWords(showQuantity(held, 4), volume), whole: "recipe" };
}

/** More than there is in the container is another container's amount and volume: `100 mg in 100 mL` on a syringe of 50 mL. */
function isBeyondAll({ quantity }: TextFigure, recipe: Recipe, runs: readonly Run[]): boolean {
  const known = [...volumesOf(recipe, runs), ...sizesOf(runs, ["fill"])];
  return known.length > 0 && known.every((each) => inBase(each).times(upTo).isBelow(inBase(quantity)));
}

function inWords(amount: string, { written }: TextFigure): string {
  return `${amount} in ${written}`;
}

/** The figures of `10 mg in 1 mL` on a syringe of 10 mg/mL, which tell its strength. */
export function strengthPairs(
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): ReadonlySet<TextFigure> {
  const found = new Set<TextFigure>();
  for (const { amount, volume, strength } of amountsInVolumes(sentence)) {
    if (isBeyondAll(volume, recipe, runs) && !saysAgain(amount)) continue;
    const drugs = orderedDrugs(recipe);
    const named = drugs.filter((drug) => isNamedLast(amount.before, drug, lookup));
    const known = (named.length > 0 ? named : drugs).flatMap((drug) =>
      strengthsOf(drug, strength, undefined, recipe, runs, lookup),
    );
    if (known.some((each) => isNear(each, strength))) found.add(amount).add(volume);
  }
  return found;
}

/** `8 mg in 50 mL (16 mg in 100 mL)`: what the container holds is said already. */
function saysAgain({ before }: TextFigure): boolean {
  return /\d ?m?L \($/.test(before);
}

/** What the order and the preparation state, and what is in the containers in the end. */
function volumesOf(recipe: Recipe, runs: readonly Run[]): Quantity[] {
  const { order } = recipe;
  const stated = [
    ...(order?.all("diluent-volume") ?? []),
    ...(order?.all("diluent") ?? []),
    ...(order?.all("final-volume") ?? []),
    ...recipe.preparations.flatMap(({ facts }) => facts.all("volume")),
  ].flatMap(measuresOf);
  const made = runs.flatMap((run) => run.finals).map(({ liquid }) => ({ value: liquid.volume, unit: millilitre }));
  return [...stated.flatMap(({ quantity }) => quantity ?? []), ...made].filter(isVolume);
}

/** By which a container is called: what its stock is labelled with, and what it can hold. */
function sizesOf(runs: readonly Run[], words: readonly string[]): Quantity[] {
  return runs
    .flatMap((run) => run.finals)
    .flatMap(({ stock, device }) => [...(stock?.facts.every() ?? []), ...(device?.facts.every() ?? [])])
    .filter(({ word }) => words.includes(word))
    .flatMap(measuresOf)
    .flatMap(({ quantity }) => quantity ?? [])
    .filter(isVolume);
}

function isVolume({ unit, value }: Quantity): boolean {
  return unit.dimension.key === "volume" && value.isPositive();
}
