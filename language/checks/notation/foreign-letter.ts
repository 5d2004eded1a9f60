import type { Line } from "../../syntax/tree.ts";
import { chunkCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { linesOf } from "./figures.ts";
import { plainLetters } from "./look-alike-letters.ts";
import { hidesSomething } from "./unseen.ts";

interface Foreign {
  at: { start: number; end: number };
  written: string;
  /** The characters that are none of ours. */
  letters: string[];
  safe: string | undefined;
  inText: boolean;
}

export const foreignLetter = chunkCheck<Foreign>({
  name: "foreign-letter",
  family: "notation",
  severity: "error",
  title: "A letter, figure or hyphen that only looks like one of ours",
  why: "Two names that look the same are two names, and the check of one says nothing about the other.",
  source: "Unicode Technical Standard 39, Unicode security mechanisms: confusable characters",
  bad: example(['in sodium chloride 0.9 % 100 mL"', 'in sodium chl\u043Eride 0.9 % 100 mL"']),
  good: example(),
  *find({ reading, chunk }) {
    if (!beyondAscii.test(chunk.text)) return;
    for (const line of linesOf(reading)) {
      yield* inNames(line);
      yield* inTexts(line);
    }
  },
  say: ({ letters, safe, inText, written }) => ({
    text: inText
      ? `\`${written}\` mixes letters of two alphabets: ${named(letters)}. ${safe ? `Write \`${safe}\`.` : "Write it in one."}`
      : `\`${written.slice(0, 60)}\` holds ${named(letters)}; the language knows the letters a to z, the figures 0 to 9 and the plain hyphen. ${safe ? `Write \`${safe}\`.` : "Write it with those."}`,
  }),
  fixes: ({ at, safe }) => (safe ? [{ title: `Write ${safe}`, edits: [replaceText(at, safe)], preferred: true }] : []),
});

// biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII is meant
const beyondAscii = /[^\x00-\x7F]/;

function* inNames(line: Line): Iterable<Foreign> {
  for (const [i, { fault, text, start, end }] of line.tokens.entries()) {
    if (fault !== "name-not-ascii" || hidesSomething(text)) continue;
    const letters = [...new Set(text.match(/[^\x20-\x7E]/gu) ?? [])];
    const isRange = dash.test(text) && line.tokens[i - 1]?.kind === "unit" && line.tokens[i + 1]?.kind === "number";
    yield { at: { start, end }, written: text, letters, safe: isRange ? "to" : plainLetters(text), inText: false };
  }
}

/** `40 kg – 60 kg`. */
const dash = /^[\u2010-\u2015\u2212]$/;

// The micro sign has a finding of its own.
const micro = /^[\u00B5\u03BC]/;

function* inTexts(line: Line): Iterable<Foreign> {
  for (const token of line.tokens) {
    if (token.kind !== "string") continue;
    for (const match of token.text.matchAll(/[\p{L}\p{M}]+/gu)) {
      const [written] = match;
      if (micro.test(written) || !/\p{Script=Latin}/u.test(written)) continue;
      const letters = [...new Set(written.match(/[\p{Script=Cyrillic}\p{Script=Greek}]/gu) ?? [])];
      if (letters.length === 0) continue;
      const start = token.start + match.index;
      yield { at: { start, end: start + written.length }, written, letters, safe: plainLetters(written), inText: true };
    }
  }
}

function named(letters: readonly string[]): string {
  const shown = letters.slice(0, 3).map((letter) => {
    const code = letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0");
    return `${letter} (U+${code}${alphabet(letter)})`;
  });
  return shown.join(", ");
}

function alphabet(letter: string): string {
  if (/\p{Script=Cyrillic}/u.test(letter)) return ", Cyrillic";
  if (/\p{Script=Greek}/u.test(letter)) return ", Greek";
  return "";
}
