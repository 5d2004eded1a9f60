/** What stands where a date belongs, behind `expires` or `until`, although it is not written as one: `04/27`, `April 2027`. */
import type { Token } from "../../syntax/tree.ts";

export interface WrittenDate {
  start: number;
  end: number;
  /** Indices of the tokens it is made of, the last one excluded. */
  from: number;
  to: number;
}

const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** 1 to 12 for a month's name or its first three letters or more; undefined for any other word. */
export function monthNamed(word: string): number | undefined {
  const index = months.indexOf(word.slice(0, 3).toLowerCase());
  return index >= 0 &&
    /^(?:jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?)\.?$/i.test(
      word,
    )
    ? index + 1
    : undefined;
}

/** Whether a word stands there that a date follows: most lines have none, and most questions end here. */
export function mayHoldDate(tokens: readonly Token[]): boolean {
  for (const { text } of tokens) if (text === "expires" || text === "until") return true;
  return false;
}

/** Stretches of figures and month names behind `expires` and `until`; a date as it should be is none. */
export function writtenDates(tokens: readonly Token[]): WrittenDate[] {
  const found: WrittenDate[] = [];
  for (let i = 0; i < tokens.length - 1; i++) {
    const word = tokens[i]!;
    if (word.kind !== "word" || (word.text !== "expires" && word.text !== "until")) continue;
    let to = i + 1;
    while (to < tokens.length && isPart(tokens[to]!)) to++;
    const first = tokens[i + 1]!;
    if (to === i + 1 || (to === i + 2 && first.kind === "date")) continue;
    found.push({ start: first.start, end: tokens[to - 1]!.end, from: i + 1, to });
  }
  return found;
}

function isPart({ kind, text, fault }: Token): boolean {
  if (kind === "number" || kind === "date") return true;
  if (fault === "date-shape" || fault === "hyphen-range") return true;
  return (kind === "word" || kind === "unit") && monthNamed(text) !== undefined;
}
