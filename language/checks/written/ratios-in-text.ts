/** Strengths written as ratios in running text: `1 in 1,000`, `1:10,000`. */
import { showQuantity } from "../../quantities/quantity.ts";
import { ratioStrength } from "../../quantities/ratio.ts";
import { mostSentences, remembered } from "../../quantities/remembered.ts";
import { findUnit } from "../../quantities/unit.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { wordsOf } from "./words-against-order.ts";

const ratio = /(?<![\w.,:/])1(?: in |:)(\d{1,3}(?:[, ]\d{3})+|\d{3,})(?![.,:]?\d)/g;
/** By volume or by weight of the whole it says no amount in a volume. */
const otherKind = /^\s*(?:v\/v|w\/w)\b/i;
const isSaid = /\b1(?: in |:)\d/;

/**
 * Each as the amount in one mL that it is by custom: grams in millilitres. Ratios below 1 in 100 are parts of a mixture, and `1 in 100 mL`
 * is an amount in a volume.
 */
export const ratiosIn = remembered((sentence: string): readonly TextFigure[] => {
  if (!isSaid.test(sentence)) return [];
  return [...sentence.matchAll(ratio)].flatMap((match) => {
    const [written, parts = ""] = match;
    const [before, after] = [sentence.slice(0, match.index), sentence.slice(match.index + written.length)];
    const quantity = ratioStrength(`1:${parts.replace(/[, ]/g, "")}`, "w/v");
    const [next] = wordsOf(/^ ?[A-Za-z]+(?![/\w])/.exec(after)?.[0] ?? "");
    if (!quantity || otherKind.test(after) || (next !== undefined && findUnit(next).unit)) return [];
    return [{ written, quantity, before, after }];
  });
}, mostSentences);

/** `1 in 1,000 (1 mg/mL)`, as a message says it; any other figure as it is written. */
export function withStrength({ written, quantity }: TextFigure): string {
  return isSaid.test(written) ? `${written} (${showQuantity(quantity)})` : written;
}
