/** The tokens of a text as what the braces are about: heads, closing braces, and lines between them. */
import type { IToken } from "chevrotain";
import type { WrittenToken } from "./blocks.ts";
import { Close, DeclarationWord, Newline, Open, TrailingWord, toToken } from "./tokens.ts";

export interface Element {
  /** `head` ends in `{` and may have no words. */
  kind: "head" | "line" | "close";
  /** Its tokens in the stream, `end` exclusive, brace included. */
  from: number;
  end: number;
  /** The first words, as far as a decision may rest on them. */
  words: readonly WrittenToken[];
  /** `source` and its like at the beginning of a row: it goes with the line above. */
  isTrailing: boolean;
  /** A head right below the same head. */
  isRepeated: boolean;
}

const wordsLookedAt = 4;

/** Stretches of a text that are read apart, each from a declaration in column 1 up to the next one. */
export function stretchesOf(tokens: readonly IToken[]): Element[][] {
  const stretches: Element[][] = [];
  let elements: Element[] = [];
  let from = -1;
  const put = (kind: Element["kind"], end: number) => {
    const first = from < 0 ? end - 1 : from;
    const words = kind === "close" ? [] : wordsIn(tokens, first, kind === "head" ? end - 1 : end);
    const isTrailing = kind === "line" && tokens[first]!.tokenType === TrailingWord;
    const above = elements[elements.length - 1];
    const isRepeated = kind === "head" && above?.kind === "head" && words.length > 0 && sameWords(words, above.words);
    elements.push({ kind, from: first, end, words, isTrailing, isRepeated });
    from = -1;
  };
  for (let i = 0; i < tokens.length; i++) {
    const type = tokens[i]!.tokenType;
    const endsLine = type === Newline || type === Close || type === DeclarationWord;
    if (endsLine && from >= 0) put("line", i);
    if (type === DeclarationWord) {
      if (elements.length > 0) stretches.push(elements);
      elements = [];
    }
    if (type === Open) put("head", i + 1);
    else if (type === Close) put("close", i + 1);
    else if (type !== Newline && from < 0) from = i;
  }
  if (from >= 0) put("line", tokens.length);
  if (elements.length > 0) stretches.push(elements);
  return stretches;
}

function wordsIn(tokens: readonly IToken[], from: number, end: number): WrittenToken[] {
  const words: WrittenToken[] = [];
  for (let i = from; i < Math.min(end, from + wordsLookedAt); i++) {
    const { kind, text } = toToken(tokens[i]!);
    words.push({ kind, word: text.length > 40 ? "" : text.toLowerCase() });
  }
  return words;
}

function sameWords(some: readonly WrittenToken[], others: readonly WrittenToken[]): boolean {
  return some.length === others.length && some.every((w, i) => w.word === others[i]!.word);
}
