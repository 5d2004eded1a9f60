/** `g 4` in a statement: the unit stands as a word, and the number behind it has none. */
import { findUnit } from "../../quantities/unit.ts";
import type { Token } from "../../syntax/tree.ts";

export interface UnitAhead {
  start: number;
  end: number;
  unit: Token;
  number: Token;
}

export function unitsAheadOfNumbers(tokens: readonly Token[]): UnitAhead[] {
  const found: UnitAhead[] = [];
  for (let i = 2; i < tokens.length; i++) {
    const number = tokens[i]!;
    if (number.kind !== "number") continue;
    const unit = tokens[i - 1]!;
    if (unit.kind !== "word" || tokens[i - 2]!.kind === "number" || tokens[i + 1]?.kind === "unit") continue;
    if (findUnit(unit.text).exact) found.push({ start: unit.start, end: number.end, unit, number });
  }
  return found;
}
