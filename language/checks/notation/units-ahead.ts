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
  return tokens.flatMap((unit, i) => {
    const number = tokens[i + 1];
    if (unit.kind !== "word" || number?.kind !== "number" || tokens[i - 1]?.kind === "number" || i === 0) return [];
    if (tokens[i + 2]?.kind === "unit" || !findUnit(unit.text).exact) return [];
    return [{ start: unit.start, end: number.end, unit, number }];
  });
}
