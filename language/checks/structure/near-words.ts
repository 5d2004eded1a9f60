/** A slip of the finger in a word, or a phrase of several, that belongs at a place of a line. */
import type { Problem } from "../../model/facts.ts";
import { nearNames } from "../../model/near.ts";
import type { Spot } from "../../model/slots.ts";
import type { Line, Token } from "../../syntax/tree.ts";
import { word } from "../problems.ts";
import { misfitAt } from "./misfit.ts";

export interface NearWord {
  /** What was meant. */
  word: string;
  /** What stands there for it. */
  at: Spot;
}

/** The words and phrases of which one belongs where a line does not fit. */
export function expectedWords(problem: Problem): string[] {
  return [...word(problem, "expected").matchAll(/`([^`]+)`/g)].map(([, each]) => each!);
}

/** Those a slip away from what is written. */
export function nearWords(problem: Problem, line: Line): NearWord[] {
  const at = misfitAt(problem, line);
  return at < 0 ? [] : nearWordsAt(line.tokens, at, expectedWords(problem));
}

/** @param at index of the token that does not fit */
export function nearWordsAt(tokens: readonly Token[], at: number, expected: readonly string[]): NearWord[] {
  return expected.flatMap((meant) => {
    const written = tokens.slice(at, at + meant.split(" ").length);
    const text = written.map((t) => t.text).join(" ");
    if (text === meant || nearNames(text, [meant]).length === 0) return [];
    // Of two letters any one may be another word; both in the wrong order are a slip.
    if (text.length < 3 && text !== [...meant].reverse().join("")) return [];
    return [{ word: meant, at: { start: written[0]!.start, end: written.at(-1)!.end } }];
  });
}
