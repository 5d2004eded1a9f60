/** Tokens that are neither figures nor punctuation: names, strings, comments, and signs that the language does not use. */
import {
  endsRun,
  followsBlank,
  isBlank,
  isBlankAt,
  isCurlyQuote,
  isDigit,
  isLetter,
  isNewline,
  isOtherSpace,
  isSingleQuote,
  nameLikeLength,
} from "./characters.ts";
import { type Scan, startsNumber } from "./scan-number.ts";

/**
 * A name: a letter, then letters, digits, single hyphens inside, and `.` between digits. The scan takes the whole glued run,
 * so that a name that breaks the rule is one faulty token and never a good name with a remainder (`mag#2` is not `mag`).
 */
export function scanName(text: string, at: number): Scan {
  let end = at;
  let good = true;
  let ascii = true;
  let before = 0;
  for (;;) {
    const c = text.charCodeAt(end);
    if (isLetter(c) || isDigit(c)) {
      end++;
    } else if (c === 45) {
      good &&= isAlphanumeric(before) && isAlphanumeric(text.charCodeAt(end + 1));
      end++;
    } else if (c === 46) {
      good &&= isDigit(before) && isDigit(text.charCodeAt(end + 1));
      end++;
    } else if (c === 95 || c === 35) {
      good = false;
      end++;
    } else {
      const length = nameLikeLength(text, end);
      if (length === 0) break;
      ascii = false;
      end += length;
    }
    before = c;
  }
  if (!ascii) return { kind: "faulty", end, fault: "name-not-ascii" };
  return good ? { kind: "word", end } : { kind: "faulty", end, fault: "name-ends-badly" };
}

export function startsName(text: string, at: number): boolean {
  return isLetter(text.charCodeAt(at)) || nameLikeLength(text, at) > 0;
}

function isAlphanumeric(c: number): boolean {
  return isLetter(c) || isDigit(c);
}

/**
 * A string on one line. Curly quotes are read as quotes (a finding offers straight ones): a string that opens with `"` ends at
 * the next `"`, or at the first curly quote when the line has no other; one that opens with a curly quote ends at any quote.
 */
export function scanString(text: string, at: number): Scan {
  const curly = text.charCodeAt(at) !== 34;
  let firstCurly = -1;
  let curlyCloses = true;
  let end = at + 1;
  let content = end;
  for (; end < text.length; end++) {
    const c = text.charCodeAt(end);
    if (isNewline(c)) break;
    if (c === 34 || (curly && isCurlyQuote(c))) return { kind: "string", end: end + 1 };
    if (isCurlyQuote(c) && firstCurly < 0) firstCurly = end;
    if (c === 92) {
      const escaped = text.charCodeAt(end + 1);
      if (escaped === 34 || escaped === 92) end++;
      // An escaped quote leaves open where the string was meant to end. This also keeps the scan linear: after a string
      // that closes at a curly quote no straight quote stands on the line, so no later one scans the same characters again.
      if (escaped === 34) curlyCloses = false;
    }
    if (!isBlank(c)) content = end + 1;
  }
  if (firstCurly >= 0 && curlyCloses) return { kind: "string", end: firstCurly + 1 };
  return { kind: "faulty", end: openStringEnd(text, at, content), fault: "string-not-closed" };
}

/** Nobody writes a longer text between single quotes, and a bound keeps a line of apostrophes from being walked for each. */
const longestSingleQuoted = 400;

/**
 * `'text'` or `‘text’` on one line, read as a string (a finding offers straight double quotes). It ends at the last single quote
 * of the line that has a blank or the like behind it, because an apostrophe inside is one too. Undefined when none closes it.
 */
export function scanSingleQuoted(text: string, at: number): Scan | undefined {
  let last = -1;
  for (let end = at + 1; end < text.length && end - at < longestSingleQuoted; end++) {
    const c = text.charCodeAt(end);
    if (isNewline(c) || c === 34 || isCurlyQuote(c)) break;
    if (isSingleQuote(c) && end > at + 1 && endsRun(text, end + 1)) last = end;
  }
  return last < 0 ? undefined : { kind: "string", end: last + 1 };
}

/** An open string runs to the end of its line, but leaves the `{` there: else one missing quote would close every block around it. */
function openStringEnd(text: string, at: number, content: number): number {
  let end = content;
  if (end - at < 3 || text.charCodeAt(end - 1) !== 123 || !isBlank(text.charCodeAt(end - 2))) return end;
  end--;
  while (isBlank(text.charCodeAt(end - 1))) end--;
  return end;
}

/** End of the comment at `at`, without trailing blanks; undefined when the `#` there opens none. */
export function commentEnd(text: string, at: number): number | undefined {
  if (!followsBlank(text, at)) return undefined;
  let end = at + 1;
  let content = end;
  for (; end < text.length; end++) {
    const c = text.charCodeAt(end);
    if (isNewline(c)) break;
    if (!isBlank(c)) content = end + 1;
  }
  return content;
}

/** Signs that stand for a word or that get a finding of their own; each is its own token, so that its line keeps its meaning. */
const standingAlone = "@&×><+^≤≥";

/**
 * One sign, or a run of other characters that have no place in the language. A run of the same sign is one token, so that a
 * spoilt file does not become millions of tokens.
 */
export function scanSymbol(text: string, at: number): Scan {
  const c = text.charCodeAt(at);
  let end = at + 1;
  if (isAlone(text, at)) {
    while (text.charCodeAt(end) === c) end++;
    if ((c === 60 || c === 62) && end === at + 1 && text.charCodeAt(end) === 61) end++; // <= and >=
  } else {
    while (belongsToRun(text, end)) end++;
  }
  return { kind: "faulty", end, fault: "symbol" };
}

function isAlone(text: string, at: number): boolean {
  const c = text.charCodeAt(at);
  return isOtherSpace(c) || c === 0xfeff || standingAlone.includes(text.charAt(at));
}

function belongsToRun(text: string, at: number): boolean {
  if (at >= text.length || endsRun(text, at) || isAlone(text, at) || isBlankAt(text, at)) return false;
  return !startsName(text, at) && !startsNumber(text, at) && !isCurlyQuote(text.charCodeAt(at));
}
