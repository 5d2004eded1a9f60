/**
 * Figures of a printed line beside which nothing is named that they could be a figure of but the preparation itself: `10 mg/mL`,
 * `Final concentration 10 mg/mL`, `4 g in 100 mL (40 mg/mL)`. Where any other word stands there they may speak of something else.
 */
import { findUnit } from "../../quantities/unit.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { type OwnWords, wordsOf } from "./words-against-order.ts";

/** Words that name the preparation, or nothing. */
const ofThePreparation: ReadonlySet<string> = new Set(
  (
    "a an the this and plus in of is at to by for with per contains containing contain content holds holding total amount dose strength concentration conc " +
    "final nominal approximately approx about each equals bag syringe bottle cassette infusor reservoir solution infusion injection " +
    "preparation volume use only intravenous epidural intrathecal subcutaneous intramuscular intravitreal intracameral ophthalmic " +
    "over lock eye drops pump elastomeric pca single double quadruple"
  ).split(" "),
);

/** A product that went in, or what is made of this one later, has a strength of its own. */
export const ofAnother =
  /\b(?:vials?|ampoules?|stock|from|drawn|made|flush\w*|rates?|intermediate|working|products?|concentrate|source|taken|bolus|loading)\b/i;

export function isOfPreparation(word: string): boolean {
  return ofThePreparation.has(word);
}

export function isBare({ before, after }: TextFigure, sentence: string, { drugs, fluids }: OwnWords): boolean {
  if (ofAnother.test(sentence)) return false;
  const words = wordsOf(before).filter((word) => !isFigure(word));
  const isPlain = (word: string) => ofThePreparation.has(word) || findUnit(word).unit !== undefined;
  if (!words.every((word) => isPlain(word) || drugs.has(word) || fluids.has(word))) return false;
  // `sodium 154 mmol/L` is the fluid's; `%` ends its name.
  const last = /([A-Za-z]+)[^A-Za-z\d%]*$/.exec(before)?.[1]?.toLowerCase();
  if (last !== undefined && fluids.has(last) && !isPlain(last)) return false;
  const [next] = wordsOf(/^[^,;:.()]*/.exec(after)![0]);
  return next === undefined || isFigure(next) || isPlain(next) || (drugs.has(next) && !fluids.has(next));
}

/** `1 mg/mL to 2 mg/mL`, `1 to 2 mg/mL`: one end of a range is no claim. */
export function isEndOfRange({ before, after }: TextFigure): boolean {
  return /(?:\d\s*(?:[A-Za-z/]+\s*)?(?:to|or|[-–])|\bto)\s*$/.test(before) || /^\s*(?:to|or|[-–])\s*\d/.test(after);
}

function isFigure(word: string): boolean {
  return /^\d/.test(word);
}
