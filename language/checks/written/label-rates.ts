/** The rates at which a line of the label says that it runs, in mL or in drug by time, laid against the order and against each other. */
import { forPatient } from "../../bench/order.ts";
import { orderedGiving } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { inBase, type Quantity, showQuantity, volumeOf } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isBare, isEndOfRange, ofAnother } from "./bare-figures.ts";
import { dosesInWords, isDaily, isGivenInDoses, isWholeDoses } from "./daily-doses.ts";
import { isDrugRate, type NeededRates, neededRates } from "./drug-rates.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { figuresOfEquations } from "./label-equations.ts";
import { isNear, otherStrength, shownAll } from "./label-figures.ts";
import { undeclaredForm } from "./undeclared-forms.ts";
import { assertions, type Contradiction, isNamedLast, ownWords } from "./words-against-order.ts";

const perHour = findUnit("mL/h").unit!;

const speaksOfRate = /\b(?:run|rate|infuse|give|at)\b/i;
/** A rate of another liquid, of a part of the time, or a limit. */
export const otherRate =
  /\b(?:start\w*|initial\w*|first|increas\w*|decreas\w*|titrat\w*|adjust\w*|flush\w*|bolus|loading|up to|maxim\w*|exceed\w*|keep vein)\b/i;
/** Of the preparation itself, however it is given. */
const ofThePreparation = /\b(?:rates?|bolus|loading)\b/gi;
/** `20 mg/h at 4 mL/h`, `4 mL/h (20 mg/h)`: one rate in two ways. */
const saysAgain =
  /^(?:,? (?:\(|or |at |i\.e\. |that is |which is |(?:will )?(?:give|deliver|provide)s? |corresponds? to |equates to |is (?:equivalent to |equal to |the same as )?|equals |= |→ )|: )(?:a |the )?(?:rate of |dose of |= )?$/i;

const converts =
  /^(?: (?:=|→|is|equals|is (?:equivalent|equal) to|corresponds? to|equates to|(?:will )?(?:give|deliver|provide)s?)|:) $/i;

/**
 * `Run at 100 mL/h` where the order says 1 mL/h, a volume and a time that make another rate, `5 mg/h` for 50 mg/h, and two rates that are
 * not the same from this container.
 */
export function rateContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  if (runs.some((run) => run.unknown)) return undefined;
  for (const sentence of assertions(text)) {
    const figures = ratesIn(sentence, runs);
    if (figures.length === 0) continue;
    const pair = pairContradicted(figures, sentence, recipe, runs, lookup);
    if (pair) return pair;
    if (otherRate.test(sentence)) continue;
    for (const figure of figures) {
      if (isEndOfRange(figure) || figuresOfEquations(sentence).has(figure)) continue;
      if (figuresOfConversions(sentence).has(figure)) continue;
      const isDosesOfDay = isDaily(figure.quantity) && isGivenInDoses(recipe, runs);
      if (isDosesOfDay && isOfGiving(figure, sentence, recipe, lookup)) {
        const possible = isVolumeRate(figure.quantity)
          ? volumesOfDay(figure.quantity, runs)
          : neededRates(figure, sentence, recipe, runs, lookup);
        if (possible.length > 0 && !isOfPart(recipe) && !isWholeDoses(possible))
          return { said: figure.written, ordered: dosesInWords(runs) };
        continue;
      }
      const known = isVolumeRate(figure.quantity)
        ? speaksOfRate.test(sentence) || isBare(figure, sentence, ownWords(recipe, lookup))
          ? ratesOf(recipe, runs)
          : []
        : isOfGiving(figure, sentence, recipe, lookup)
          ? drugRatesOf(figure, neededRates(figure, sentence, recipe, runs, lookup), recipe)
          : [];
      if (known.length === 0 || known.some((each) => isRateNear(each, figure.quantity, runs))) continue;
      if (undeclaredForm(figure, sentence, known, recipe, lookup)) continue;
      return { said: figure.written, ordered: shownAll(known) };
    }
  }
  return undefined;
}

/** `1 mL/h = 10 mcg/kg/min`: what the container gives at some rate, and no rate of the order. The two are laid against each other. */
export function figuresOfConversions(sentence: string): ReadonlySet<TextFigure> {
  const found = new Set<TextFigure>();
  const figures = figuresIn(sentence).filter(({ quantity }) => isRate(quantity));
  for (const [i, second] of figures.entries()) {
    const first = figures[i - 1];
    if (!first || isVolumeRate(first.quantity) === isVolumeRate(second.quantity)) continue;
    const between = second.before.slice(first.before.length + first.written.length);
    if (converts.test(between)) found.add(first).add(second);
  }
  return found;
}

/** Rates of a liquid for each kg or m2 as they are for this patient. */
function ratesIn(sentence: string, runs: readonly Run[]): TextFigure[] {
  const point = runs[0]?.point;
  return figuresIn(sentence).flatMap((figure) => {
    if (isRate(figure.quantity)) return figure;
    const { key } = figure.quantity.unit.dimension;
    if (!point || (key !== "volume/bodyWeight/time" && key !== "volume/area/time")) return [];
    const all = forPatient(figure.quantity, point);
    return all ? { ...figure, quantity: all } : [];
  });
}

function isOfPart({ order }: Recipe): boolean {
  return order?.one("use")?.slots.use.choice === "part-of-container";
}

function volumesOfDay(quantity: Quantity, runs: readonly Run[]) {
  const needed = [inBase(quantity)];
  return runs.flatMap((run) => (run.unknown ? [] : run.finals.map((vessel) => ({ vessel, needed }))));
}

export function isVolumeRate({ unit }: Quantity): boolean {
  return unit.dimension === perHour.dimension;
}

export function isRate(quantity: Quantity): boolean {
  return isVolumeRate(quantity) || isDrugRate(quantity);
}

function isOfGiving(figure: TextFigure, sentence: string, recipe: Recipe, lookup: Lookup): boolean {
  return (
    speaksOfRate.test(sentence) ||
    isBare(figure, sentence, ownWords(recipe, lookup)) ||
    orderedDrugs(recipe).some((drug) => isNamedLast(figure.before, drug, lookup))
  );
}

/** A rate of the drug and one in mL/h that the sentence calls the same. */
function pairContradicted(
  figures: readonly TextFigure[],
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  if (otherStrength.test(sentence) || ofAnother.test(sentence.replace(ofThePreparation, ""))) return undefined;
  for (const [i, second] of figures.entries()) {
    const first = figures[i - 1];
    const between = first && second.before.slice(first.before.length + first.written.length);
    if (!first || between === undefined || !saysAgain.test(between)) continue;
    const [drug, volume] = isVolumeRate(first.quantity) ? [second, first] : [first, second];
    if (isVolumeRate(drug.quantity) || !isVolumeRate(volume.quantity)) continue;
    if (figuresOfEquations(sentence).has(drug)) continue;
    const possible = neededRates(drug, sentence, recipe, runs, lookup);
    const said = inBase(volume.quantity);
    const needed = possible.flatMap((each) => each.needed).map(asVolumeRate);
    if (needed.length === 0 || needed.some((each) => isRateNear(each, volume.quantity, runs))) continue;
    // The one of the two that is as ordered is let stand.
    const ordered = drugRatesOf(drug, possible, recipe);
    const isDrugRight = ordered.some((each) => isRateNear(each, drug.quantity, runs));
    const isVolumeRight = ratesOf(recipe, runs).some((each) => isRateNear(each, volume.quantity, runs));
    const right =
      isDrugRight && !isVolumeRight
        ? { drug: drug.written, volume: showQuantity(needed[0]!, 4) }
        : { drug: showQuantity(scaled(drug.quantity, said.over(inBase(needed[0]!))), 4), volume: volume.written };
    const shown = (so: typeof right) => (drug === first ? `${so.drug} at ${so.volume}` : `${so.volume} for ${so.drug}`);
    return { said: shown({ drug: drug.written, volume: volume.written }), ordered: shown(right), whole: "recipe" };
  }
  return undefined;
}

/** As print rounds, or as a pump is set: 0.3 mL/h for 0.33 mL/h. */
export function isRateNear(known: Quantity, said: Quantity, runs: readonly Run[]): boolean {
  if (isNear(known, said)) return true;
  const step = runs[0]?.policy.pumpStep;
  const value = inBase(said);
  if (!step?.isPositive() || !isVolumeRate(said) || !value.isPositive() || !value.over(step).isWhole()) return false;
  return inBase(known).minus(value).abs().times(Exact.of(2)).isAtMost(step);
}

function asVolumeRate(value: Exact): Quantity {
  return { value, unit: perHour };
}

function scaled({ value, unit }: Quantity, by: Exact): Quantity {
  return { value: value.times(by), unit };
}

/** The ordered rate in the unit of the figure: as it is stated, or what the ordered mL/h bring of the drug. */
function drugRatesOf(
  { quantity }: TextFigure,
  possible: readonly NeededRates[],
  { order }: Recipe,
): readonly Quantity[] {
  const stated = (order?.all("infuse-at") ?? [])
    .flatMap(({ slots }) => slots.rate.quantity ?? [])
    .filter(({ unit }) => unit.dimension === quantity.unit.dimension);
  if (stated.length > 0) return stated.map((each) => ({ ...quantity, value: inBase(each).over(quantity.unit.factor) }));
  return possible.flatMap(({ run, vessel, needed }) => {
    const giving = orderedGiving(run, vessel);
    return giving ? needed.map((rate) => scaled(quantity, inBase(giving.rate).over(rate))) : [];
  });
}

/** Stated in mL by time, or as a rate of the drug from this container; else what is given of the container over the time of giving. */
export function ratesOf({ order }: Recipe, runs: readonly Run[]): Quantity[] {
  const stated = (order?.all("infuse-at") ?? []).flatMap(({ slots }) => slots.rate.quantity ?? []);
  const direct = stated.filter(isVolumeRate);
  if (direct.length > 0) return direct;
  const worked = runs.flatMap((run) => run.finals.flatMap((vessel) => orderedGiving(run, vessel)?.rate ?? []));
  if (stated.length > 0 || order?.one("use")?.slots.use.choice === "part-of-container") return worked;
  const nominal = [...(order?.all("diluent-volume") ?? []), ...(order?.all("final-volume") ?? [])]
    .flatMap(({ slots }) => volumeOf(slots.volume.quantity) ?? [])
    .filter((volume) => volume.isPositive());
  const times = (order?.all("infuse-over") ?? []).flatMap(({ slots }) => hoursOfGiving(slots.time.quantity) ?? []);
  return [...worked, ...times.flatMap((time) => nominal.map((volume) => asVolumeRate(volume.over(time))))];
}
