/** How a number is written out for a person: grouping of thousands as the house wants it. */
import { Exact } from "./exact.ts";

/** `comma` 10,000; `thin-space` 10 000 with a narrow no-break space from 10,000 on; `words` 10 thousand; `none` 10000. */
export type ThousandsStyle = "comma" | "thin-space" | "words" | "none";

/** Narrow no-break space. */
export const thinSpace = "\u202f";

const thousand = Exact.of(1000);
const million = Exact.of(1_000_000);

/** All digits where the decimal ends; otherwise four significant digits, never fewer than the whole part. */
export function numberText(value: Exact, thousands: ThousandsStyle): string {
  const size = value.abs();
  if (thousands === "words" && size.isAtLeast(thousand)) {
    const inWords = wordsText(value, size);
    if (inWords) return inWords;
  }
  return grouped(value.toText(), thousands);
}

/** `5 million`, `1.5 million`, `20 thousand`; undefined where a figure with commas is plainer. */
function wordsText(value: Exact, size: Exact): string | undefined {
  for (const [unit, word] of [
    [million, "million"],
    [thousand, "thousand"],
  ] as const) {
    const count = value.over(unit);
    const places = count.decimalPlaces();
    if (
      size.isAtLeast(unit) &&
      places !== undefined &&
      places <= (word === "million" ? 1 : 0) &&
      count.abs().isBelow(thousand)
    ) {
      return `${count.toText()} ${word}`;
    }
  }
  return undefined;
}

/** Groups the whole part of a plain decimal text. */
export function grouped(plain: string, thousands: ThousandsStyle): string {
  if (thousands === "none") return plain;
  const [, sign = "", whole = "", rest = ""] = /^(-?)(\d+)(.*)$/.exec(plain) ?? [];
  const smallest = thousands === "thin-space" ? 5 : 4; // four figures stay closed with a gap (clinical typing habit)
  if (whole.length < smallest) return plain;
  return sign + whole.replace(/\B(?=(\d{3})+$)/g, thousands === "thin-space" ? thinSpace : ",") + rest;
}
