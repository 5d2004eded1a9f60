/** Figures with units in printed words (`give 1.0 mg`): only those are judged whose unit is known, since running text counts other things too. */
import { findUnit } from "../../quantities/unit.ts";
import type { Token } from "../../syntax/tree.ts";

/** A figure within a chunk's text; offsets in the chunk. */
export interface PrintedFigure {
  start: number;
  numberEnd: number;
  unit: { start: number; end: number };
}

// A dot behind the unit is part of it where the sentence goes on in small letters; at its end it is the sentence's.
// `10 000 units` is one figure; `2 500 mL bags` may be two.
const figure =
  /(?<![\p{L}\p{N}.,/:+'’-])(\.\d+|\d{1,3}(?:[ \u00a0\u202f]\d{3})*[ \u00a0\u202f]0\d\d(?:[ \u00a0\u202f]\d{3})*|\d[\d.,]*)( {0,2})(%|c\.c\.|[Ii]\.[Uu]\.|cm[3³](?!\w)|[A-Za-zµμγ]+(?:\/[A-Za-zµμγ]+)*(?:\.(?= [a-z(]))?)/gu;

/** Rules about what an author writes in a fact; in running text `4 hrs` and `18 G needle` mislead nobody. */
const notInText: ReadonlySet<string> = new Set(["unit-spelling", "unit-case", "customary-unit"]);

export function isJudgedInText(rule: string): boolean {
  return !notInText.has(rule);
}

export function printedFigures(token: Token): PrintedFigure[] {
  const found: PrintedFigure[] = [];
  if (!/\d/.test(token.text)) return found;
  for (const { 1: number, 2: gap, 3: unit, index } of token.text.matchAll(figure)) {
    // A comma or full stop behind the figures belongs to the sentence.
    if (/[.,]$/.test(number!) && gap !== "") continue;
    const known = findUnit(unit!);
    if (!known.unit && known.faults.length === 0) continue;
    const start = token.start + index;
    const numberEnd = start + number!.length;
    const unitStart = numberEnd + gap!.length;
    found.push({ start, numberEnd, unit: { start: unitStart, end: unitStart + unit!.length } });
  }
  return found;
}
