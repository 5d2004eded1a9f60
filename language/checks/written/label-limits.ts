/**
 * Bounds that a printed line sets to giving, laid against the order and the monograph: `over at least 30 min`, `over 1 to 2 h`, `do not exceed
 * 20 mg/min`. A bound that the order does not keep, or that allows more than the monograph, is another recipe's.
 */
import { rowAt } from "../../bench/order-rows.ts";
import { orderedGiving } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import { rateLimitBroken } from "../limits/rates.ts";
import { isDaily, isGivenInDoses } from "./daily-doses.ts";
import { neededRates } from "./drug-rates.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isRate, isRateNear, isVolumeRate } from "./label-rates.ts";
import { timeInText } from "./label-times.ts";
import { type Contradiction, sentencesIn } from "./words-against-order.ts";

const perHour = findUnit("mL/h").unit!;

/** Of a part of it, of something else, or of the line. */
const ofAnother =
  /\b(?:bolus\w*|loading|flush\w*|push\w*|start\w*|first|initial\w*|each|antidote|at hand|at the bedside|extravasation|anaphyla\w+)\b/i;

interface SaidBound {
  said: string;
  /** In h; the shortest or the longest time that the line allows. */
  least: Exact | undefined;
  most: Exact | undefined;
}

const least = "(?:at least|not less than|no less than|a minimum of|minimum(?: of)?|no faster than|not faster than)";
const most =
  "(?:at most|no more than|not more than|no longer than|not longer than|a maximum of|maximum(?: of)?|max|up to)";
const given = "(?:give|infuse|run|administer)";
const atLeast = [
  `\\b(?:over|during|${given} (?:it )?in) (?:a period of )?${least} ${timeInText}`,
  `\\b(?:minimum|shortest) (?:infusion )?(?:time|duration|period)(?: of| is|:)? ${timeInText}`,
  `\\bover ${timeInText} (?:or (?:more|longer)|minimum|at least)\\b`,
  `\\b(?:no|not) faster than (?:over |in )?${timeInText}`,
  `\\b${given} (?:it )?(?:slowly )?(?:for )?at least ${timeInText}(?! (?:after|before|apart|between))`,
].map((pattern) => new RegExp(pattern, "i"));
const atMost = [
  `\\b(?:over|${given} (?:it )?in) ${most} ${timeInText}`,
  `\\b(?:maximum|longest) (?:infusion )?(?:time|duration|period)(?: of| is|:)? ${timeInText}`,
].map((pattern) => new RegExp(pattern, "i"));
const between = new RegExp(`\\bover (\\d+(?:\\.\\d+)?) ?([a-z]*) ?(?:to|-|–) ?${timeInText}`, "i");

const boundsIn = remembered((sentence: string): readonly SaidBound[] => {
  const found: SaidBound[] = [];
  const put = (patterns: readonly RegExp[], bound: (time: Exact) => Omit<SaidBound, "said">) => {
    for (const pattern of patterns) {
      const [said, number = "", word = ""] = pattern.exec(sentence) ?? [];
      const time = said === undefined ? undefined : hoursIn(number, word);
      if (said !== undefined && time) {
        found.push({ said, ...bound(time) });
        return;
      }
    }
  };
  put(atLeast, (time) => ({ least: time, most: undefined }));
  put(atMost, (time) => ({ least: undefined, most: time }));
  const [said, first = "", unit = "", second = "", word = ""] = between.exec(sentence) ?? [];
  const [low, high] = said === undefined ? [] : [hoursIn(first, unit || word), hoursIn(second, word)];
  if (said !== undefined && low && high) found.push({ said, least: low, most: high });
  return found;
}, mostSentences);

function hoursIn(number: string, word: string): Exact | undefined {
  const { unit } = findUnit(word.toLowerCase());
  return unit?.dimension.key === "time" ? inBase({ value: Exact.of(number), unit }) : undefined;
}

export function limitContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  if (runs.some((run) => run.unknown)) return undefined;
  for (const sentence of sentencesIn(text)) {
    if (ofAnother.test(sentence)) continue;
    for (const bound of boundsIn(sentence)) {
      const found = timeContradicted(bound, recipe, runs);
      if (found) return found;
    }
    const outside = rangeContradicted(sentence, recipe, runs);
    if (outside) return outside;
    for (const figure of figuresIn(sentence)) {
      // `Maximum 6 g a day` bounds how often it is given.
      if (isDaily(figure.quantity) && isGivenInDoses(recipe, runs)) continue;
      const found = isRate(figure.quantity)
        ? rateContradicted(figure, sentence, recipe, runs, lookup)
        : capContradicted(figure, recipe);
      if (found) return found;
    }
  }
  return undefined;
}

function timeContradicted({ said, least, most }: SaidBound, { order }: Recipe, runs: readonly Run[]) {
  for (const run of runs) {
    const stated = rowAt(order?.all("infuse-over") ?? [], run)?.slots.time;
    const time = hoursOfGiving(stated?.quantity);
    if (!stated || !time) continue;
    if ((least && time.isBelow(least)) || (most && time.isAbove(most)))
      return { said, ordered: `infuse-over ${stated.written}` };
    if (!least?.isPositive()) continue;
    for (const vessel of run.finals) {
      const giving = orderedGiving(run, vessel);
      const broken = giving && rateLimitBroken(run, giving.rate.value.times(time).over(least));
      if (broken) return ofMonograph(`${said} (${broken.shown})`, broken);
    }
  }
  return undefined;
}

const rateRange =
  /(?<![\d.,])(\d+(?:\.\d+)?) ?(?:mL\/h(?:our|r)? ?)?(?:to|-|–) ?(\d+(?:\.\d+)?) ?mL(?:\/| per )h(?:our|r)?\b/i;
const isSet = /\b(?:titrat\w*|adjust\w*|increas\w*|according|between|range|limits?)\b/i;

/** `Rate 100 to 150 mL/h` where 27 mL/h are ordered. What is titrated begins at one rate and goes on at another. */
function rangeContradicted(sentence: string, recipe: Recipe, runs: readonly Run[]): Contradiction | undefined {
  const [said, low, high] = rateRange.exec(sentence) ?? [];
  if (said === undefined || isSet.test(sentence) || recipe.order?.one("use")?.slots.use.choice === "titrated")
    return undefined;
  const [from, to] = [Exact.of(low!), Exact.of(high!)];
  const rates = runs.flatMap((run) => run.finals.flatMap((vessel) => orderedGiving(run, vessel)?.rate ?? []));
  const isWithin = (rate: Exact) =>
    (rate.isAtLeast(from) && rate.isAtMost(to)) ||
    [from, to].some((value) => isRateNear({ value: rate, unit: perHour }, { value, unit: perHour }, runs));
  if (rates.length === 0 || rates.some((rate) => isWithin(inBase(rate)))) return undefined;
  return { said, ordered: showQuantity(rates[0]!, 4) };
}

const no = /\b(?:(?:do|must|should) )?(?:not|never|no|nor|don't)\b[^,;]*$/i;
const beyond = /\b(?:exceed(?:ing)?|faster than|quicker than|more than|above|higher than)(?: a)?(?: rate of)?\s*$/i;
const upTo = /\b(?:max(?:imum|imal)?\.?(?: (?:infusion )?rate)?(?: of| is)?:?|up to|at most|rate limit:?)\s*$/i;
const isMost = /^\s*(?:max(?:imum)?|at most)\b/i;

/** `Do not exceed 20 mg/min`: below what is ordered, or above what the monograph allows. */
function rateContradicted(
  figure: TextFigure,
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const { before, after, quantity, written } = figure;
  const bound = (beyond.test(before) ? no : upTo).exec(before);
  if (!bound && !isMost.test(after)) return undefined;
  const said = bound ? `${bound[0].trim()} ${written}` : `${written} ${isMost.exec(after)![0].trim()}`;
  const limits = isVolumeRate(quantity)
    ? runs.flatMap((run) => run.finals.map((vessel) => ({ run, vessel, needed: [inBase(quantity)] })))
    : neededRates(figure, sentence, recipe, runs, lookup);
  for (const { run, vessel, needed } of limits) {
    const [first] = needed;
    const giving = orderedGiving(run, vessel);
    if (!first) continue;
    const isBelow = (rate: Exact) => giving && inBase(giving.rate).isAbove(rate);
    const isNear = (rate: Exact) => giving && isRateNear(giving.rate, { value: rate, unit: perHour }, runs);
    if (giving && needed.every((rate) => isBelow(rate) && !isNear(rate))) {
      const ordered = { value: quantity.value.times(inBase(giving.rate)).over(first), unit: quantity.unit };
      return { said, ordered: showQuantity(ordered, 4) };
    }
    const broken = needed.map((rate) => rateLimitBroken(run, rate));
    const [limit] = broken;
    if (limit && broken.every((each) => each)) return ofMonograph(said, limit);
  }
  return undefined;
}

const highest = /\bmax(?:imum|imal)?\.?(?: (?:single )?dose)?(?: of| is)?:?\s*$/i;

/** `Maximum 3 g` where the order caps the dose at 2 g. */
function capContradicted(
  { before, after, written, quantity }: TextFigure,
  { order }: Recipe,
): Contradiction | undefined {
  const [bound] = highest.exec(before) ?? [];
  const caps = (order?.all("maximum") ?? []).map(({ slots }) => slots.limit);
  const alike = caps.filter(({ quantity: cap }) => cap?.unit.dimension === quantity.unit.dimension);
  if (bound === undefined || alike.length === 0 || /^\s*(?:\/|per\b|a day|daily|in 24)/i.test(after)) return undefined;
  if (alike.some(({ quantity: cap }) => inBase(cap!).equals(inBase(quantity)))) return undefined;
  return {
    said: `${bound.trim()} ${written}`,
    ordered: `maximum dose ${alike.map((cap) => cap.written).join(" and ")}`,
  };
}

function ofMonograph(said: string, { drug, limit }: { drug: string; limit: string }): Contradiction {
  return { said, ordered: `rate up to ${limit}`, whole: `monograph of ${drug}` };
}
