/**
 * A volume and the strength of the liquid that it is of, as they stand in running text: `8 mL of 500 mg/mL`, `8 mL of magnesium sulfate
 * 50 %`, `1 mL of 1 in 1,000`.
 */
import { kindOf, kindUnits } from "../../bench/amounts.ts";
import { Exact } from "../../quantities/exact.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit, type Unit } from "../../quantities/unit.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { ratiosIn } from "./ratios-in-text.ts";
import { wordsOf } from "./words-against-order.ts";

export interface Portion {
  volume: TextFigure;
  /** Undefined in `4 g (8 mL) in ...`, where the amount stands beside its volume. */
  strength: Quantity | undefined;
  /** `500 mg/mL`, `50 %`, `1 in 1,000`; nothing where there is none. */
  strengthWritten: string;
  /** The whole text with other figures: `8 mL of magnesium sulfate 500 mg/mL`. */
  with(volume: string, strength: string): string;
  /** The words between the two. */
  words: readonly string[];
  /** Nothing says that it goes into something: `37 mg/mL, 100 mL` may be the finished container by its nominal volume. */
  isLoose?: true;
}

export const percentUnit = findUnit("% w/v").unit!;
export const percentByVolume = findUnit("% v/v").unit!;

const link = /^ (?:(?:of|[x×]) (?:[A-Za-z][A-Za-z-]* ){0,5}|(?:[A-Za-z][A-Za-z-]* ){1,5})$/;
const percent = /^((?: [A-Za-z][A-Za-z-]*){0,6} )((\d+(?:\.\d+)?) ?%(?: [wv]\/v)?)/;
/** `500 mg/mL 8 mL in ...`: what goes into something, its strength first. */
const strengthFirst = /^\)?,? \(?$/;
const percentBefore = /((\d+(?:\.\d+)?) ?%(?: [wv]\/v)?)(,? \(?)$/;
const goesIn = /^[),]* (?:diluted |added |made up )?(?:in|to|with)\b/i;
/** `10 % 10 mL = calcium 2.3 mmol`, `100 units/mL 1 mL`: nothing else is said to be of this volume. */
const saysNoMore = /^\)?(?: ?=|[,;.]|\s*$| \(| (?:added|drawn|withdrawn)\b)/;
const wordsBefore = /(?:[A-Za-z][A-Za-z-]* )+$/;
/** `contains insulin 100 units/mL 1 mL`: the name begins behind such a word. */
const beforeNames = /^.*\b(?:in|into|with|and|plus|of|to|from|contains?|containing|holds?|add|added|using)\b/i;
/** `in 50 mL of 2 mg/mL` and `to 50 mL of 1 mg/mL` tell what it is made up to. */
const isWhole = /\b(?:in|to)\s*$/i;
/** Volumes next to a strength, whatever stands between them. */
export const portionsIn = remembered((sentence: string): readonly Portion[] => {
  const figures = figuresIn(sentence);
  const strengths = [...figures.filter(isStrength), ...ratiosIn(sentence)];
  return figures.flatMap((volume): Portion[] => {
    if (volume.quantity.unit.dimension.key !== "volume" || isWhole.test(volume.before)) return [];
    const found =
      strengthInFront(volume, strengths) ?? strengthBehind(volume, strengths) ?? amountInFront(volume, figures);
    return found ? [found] : [];
  });
}, mostSentences);

function strengthBehind(volume: TextFigure, strengths: readonly TextFigure[]): Portion | undefined {
  const start = volume.before.length + volume.written.length;
  const pair = (between: string, strength: Quantity, strengthWritten: string): Portion => ({
    volume,
    strength,
    strengthWritten,
    with: (so, strong) => `${so}${between}${strong}${between.endsWith("(") ? ")" : ""}`,
    words: wordsOf(between),
  });
  for (const { before, written, after, quantity } of strengths) {
    const between = before.slice(start);
    if (before.length > start && (link.test(between) || (between === " (" && goesIn.test(after))))
      return pair(between, quantity, written);
  }
  const [, between, written, number] = percent.exec(volume.after) ?? [];
  if (between === undefined || written === undefined || number === undefined || !link.test(between)) return undefined;
  return pair(between, { value: Exact.of(number), unit: percentOf(written) }, written);
}

function percentOf(written: string): Unit {
  return written.endsWith("v/v") ? percentByVolume : percentUnit;
}

function strengthInFront(volume: TextFigure, strengths: readonly TextFigure[]): Portion | undefined {
  const isLoose = !goesIn.test(volume.after);
  if (isLoose && !saysNoMore.test(volume.after)) return undefined;
  const pair = (before: string, between: string, strength: Quantity, strengthWritten: string): Portion => ({
    ...(isLoose ? { isLoose } : {}),
    volume,
    strength,
    strengthWritten,
    with: (so, strong) => `${strong}${between}${so}${between.endsWith("(") ? ")" : ""}`,
    // `in glucose 5 % 1 L` is no volume of the drug.
    words: wordsOf((wordsBefore.exec(before)?.[0] ?? "").replace(beforeNames, "")),
  });
  for (const { before, written, quantity } of strengths) {
    const between = volume.before.slice(before.length + written.length);
    if (volume.before.length > before.length && strengthFirst.test(between))
      return pair(before, between, quantity, written);
  }
  const found = percentBefore.exec(volume.before);
  const [, written, number, between] = found ?? [];
  if (!found || between === undefined || written === undefined || number === undefined) return undefined;
  const before = volume.before.slice(0, found.index);
  return pair(before, between, { value: Exact.of(number), unit: percentOf(written) }, written);
}

/** `4 g (8 mL) in ...`: the volume of the product that holds the amount. */
function amountInFront(volume: TextFigure, figures: readonly TextFigure[]): Portion | undefined {
  const amount = figures.find(({ before, written }) => volume.before === `${before}${written} (`);
  const kind = amount && kindOf(amount.quantity);
  if (!amount || !kind || kind === "volume" || kindUnits[kind].dimension !== amount.quantity.unit.dimension)
    return undefined;
  if (!goesIn.test(volume.after)) return undefined;
  return { volume, strength: undefined, strengthWritten: "", with: (so) => `${amount.written} (${so})`, words: [] };
}

function isStrength({ quantity }: TextFigure): boolean {
  return quantity.unit.dimension.key.endsWith("/volume");
}
