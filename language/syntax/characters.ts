/** Kinds of characters, by UTF-16 code unit. Everything here is asked once a character, so it is kept to comparisons. */

/** Unicode spaces that look like a blank but are not one; U+2009, U+202F and U+00A0 may group digits. */
const otherSpaces = /^[\u0085\u00A0\u1680\u2000-\u200A\u2028\u2029\u202F\u205F\u3000]$/;

// Letters beyond ASCII, and what hides or poses as a hyphen inside a pasted name: soft hyphen, zero-width marks, dashes, minus.
const nameLike = /^[\p{L}\p{M}\p{Nd}\u00AD\u200B-\u200F\u2010-\u2015\u2060\u2212\uFEFF]$/u;

export function isNewline(c: number): boolean {
  return c === 10 || c === 13;
}

export function isDigit(c: number): boolean {
  return c >= 48 && c <= 57;
}

export function isLetter(c: number): boolean {
  return (c >= 97 && c <= 122) || (c >= 65 && c <= 90);
}

/**
 * Space, tab, and the spaces of fixed width that word processors and web pages put in their place (no-break, thin and their
 * like): between words they mean no more than a space, and nobody can see the difference. Line separators, vertical tab and
 * form feed are none. The byte order mark is a blank only after another blank, see `isBlankAt`.
 */
export function isBlank(c: number): boolean {
  return c === 32 || c === 9 || (c >= 0xa0 && isWideBlank(c));
}

function isWideBlank(c: number): boolean {
  return c === 0xa0 || (c >= 0x2000 && c <= 0x200a) || c === 0x202f || c === 0x205f || c === 0x3000;
}

/** The blanks of `isBlank` for a character class. */
export const blankClass = " \\t\\u00A0\\u2000-\\u200A\\u202F\\u205F\\u3000";

/**
 * Files that were joined keep byte order marks at the start of a line; glued to a name one is an unseen character and no
 * blank. Looking one character back is enough: a mark that is no blank never ends a token, it takes all marks after it along.
 */
export function isBlankAt(text: string, at: number): boolean {
  const c = text.charCodeAt(at);
  return isBlank(c) || (c === 0xfeff && followsBlank(text, at));
}

/** Column 1, not counting a byte order mark. */
export function isLineStart(text: string, at: number): boolean {
  return at === 0 || isNewline(text.charCodeAt(at - 1));
}

/** Whether what stands at `at` has a blank or the start of the line before it; `#` and `-` mean something only then. */
export function followsBlank(text: string, at: number): boolean {
  const before = text.charCodeAt(at - 1);
  return at === 0 || isBlank(before) || isNewline(before) || before === 0xfeff;
}

/** What ends a unit and any glued run: the end of the text, a blank, a newline, another space, or one of , # " = { } */
export function endsRun(text: string, at: number): boolean {
  if (at >= text.length) return true;
  const c = text.charCodeAt(at);
  if (c < 128) {
    return (c >= 9 && c <= 13) || c === 32 || c === 34 || c === 35 || c === 44 || c === 61 || c === 123 || c === 125;
  }
  return isOtherSpace(c);
}

export function isOtherSpace(c: number): boolean {
  if (c < 0x85) return c === 11 || c === 12;
  return (c <= 0xa0 || c >= 0x1680) && c <= 0x3000 && otherSpaces.test(String.fromCharCode(c));
}

/** U+00A0, U+2009, U+202F: may stand between digits. */
export function isThinSpace(c: number): boolean {
  return c === 0x2009 || c === 0x202f || c === 0xa0;
}

/** Length (1 or 2) of a character beyond ASCII that belongs to a name by its look; 0 when it does not. */
export function nameLikeLength(text: string, at: number): number {
  const c = text.charCodeAt(at);
  if (!(c >= 128)) return 0;
  const whole = text.codePointAt(at)!;
  return nameLike.test(String.fromCodePoint(whole)) ? (whole > 0xffff ? 2 : 1) : 0;
}

export function isCurlyQuote(c: number): boolean {
  return c >= 0x201c && c <= 0x201f;
}

/** `'` and its curly forms. */
export function isSingleQuote(c: number): boolean {
  return c === 39 || (c >= 0x2018 && c <= 0x201b);
}

/** ½ ¼ ¾ ⅛ ⅓ ⅔ */
export function isVulgarFraction(c: number): boolean {
  return (c >= 0xbc && c <= 0xbe) || c === 0x215b || c === 0x2153 || c === 0x2154;
}

/** End of the run of characters up to a blank or one of , # " = { }, looking no further than `limit`. */
export function runEnd(text: string, at: number, limit = text.length): number {
  let end = at;
  while (end < limit && !endsRun(text, end)) end++;
  return end;
}
