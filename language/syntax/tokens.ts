/**
 * The lexer. Every text lexes: what has no place in the language becomes a faulty token that says why. Newlines are tokens
 * here, because they end statements; blanks vanish and comments are kept aside.
 *
 * All patterns are functions over character codes rather than regular expressions: they run in time linear in the text and
 * in constant stack on a line of any length.
 */
import { type CustomPatternMatcherReturn, createToken, type IToken, Lexer, type TokenType } from "chevrotain";
import { followsBlank, isBlank, isBlankAt, isLineStart, isSingleQuote } from "./characters.ts";
import { declarationHeadAt } from "./chunks.ts";
import { type Scan, scanNumber, startsNumber, unitEnd } from "./scan-number.ts";
import { commentEnd, scanName, scanSingleQuoted, scanString, scanSymbol, startsName } from "./scan-word.ts";
import { shared } from "./shared-texts.ts";
import type { Token, TokenFault, TokenKind } from "./tree.ts";
import { isTrailingWord } from "./words.ts";

type Matcher = (text: string, at: number, matched: IToken[]) => CustomPatternMatcherReturn | null;

// Chevrotain sorts patterns by the first character. Codes from 256 on share buckets of 255, so one code stands for each.
const beyondLatin = Array.from({ length: 257 }, (_, i) => Math.min(256 + 255 * i, 65535));
const latin = Array.from({ length: 128 }, (_, i) => 128 + i);
const beyondAscii = [...latin, ...beyondLatin];
const digits = codes("0123456789");
const letters = codes("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
const anything = [...Array.from({ length: 128 }, (_, i) => i), ...beyondAscii];

function codes(text: string): number[] {
  return [...text].map((c) => c.charCodeAt(0));
}

function token(name: string, starts: number[], pattern: Matcher, more: { group?: string; plain?: boolean } = {}) {
  return createToken({
    name,
    pattern,
    start_chars_hint: starts,
    line_breaks: name === "Newline",
    ...(more.group ? { group: more.group } : {}),
    ...(more.plain ? { categories: [Plain] } : {}),
  });
}

function upTo(text: string, at: number, end: number | undefined): CustomPatternMatcherReturn | null {
  return end === undefined || end === at ? null : [text.slice(at, end)];
}

function take(text: string, at: number, scan: Scan, kind: TokenKind): CustomPatternMatcherReturn | null {
  return scan.kind === kind ? [text.slice(at, scan.end)] : null;
}

/** Any token that may stand in a statement. */
export const Plain = createToken({ name: "Plain", pattern: Lexer.NA });

export const Newline = token("Newline", [10, 13], (text, at) => {
  const crlf = text.charCodeAt(at) === 13 && text.charCodeAt(at + 1) === 10;
  return [crlf ? "\r\n" : text.charAt(at)];
});

const Blank = token(
  "Blank",
  [32, 9, ...beyondAscii],
  (text, at) => {
    let end = at;
    while (isBlank(text.charCodeAt(end)) || isBlankAt(text, end)) end++;
    return upTo(text, at, end);
  },
  { group: Lexer.SKIPPED },
);

const Comment = token("Comment", codes("#"), (text, at) => upTo(text, at, commentEnd(text, at)), { group: "comments" });

const quotes = [34, 39, ...beyondLatin];
const Text = token(
  "Text",
  quotes,
  (text, at) => {
    if (isQuote(text, at)) return take(text, at, scanString(text, at), "string");
    return isSingleQuote(text.charCodeAt(at)) ? upTo(text, at, scanSingleQuoted(text, at)?.end) : null;
  },
  { plain: true },
);

function isQuote(text: string, at: number): boolean {
  const c = text.charCodeAt(at);
  return c === 34 || (c >= 0x201c && c <= 0x201f);
}

const Unit = token(
  "Unit",
  [...letters, ...codes("%/"), ...beyondAscii],
  (text, at, matched) => {
    const before = matched[matched.length - 1]?.tokenType;
    return before === Figure || before === Ratio ? upTo(text, at, unitEnd(text, at)) : null;
  },
  { plain: true },
);

// One scan decides between number, ratio, date and fault; `Figure` remembers it for the types tried after it.
const numberStarts = [...digits, ...codes(".-"), ...beyondAscii];
let scanned: { text: string; at: number; scan: Scan } | undefined;

function figureAt(text: string, at: number): Scan | undefined {
  if (scanned?.at === at && scanned.text === text) return scanned.scan;
  const signed = text.charCodeAt(at) === 45;
  if (!startsNumber(text, signed ? at + 1 : at) || (signed && !followsBlank(text, at))) return undefined;
  const scan = scanNumber(text, at);
  scanned = { text, at, scan };
  return scan;
}

function figure(kind: TokenKind): Matcher {
  return (text, at) => {
    const scan = figureAt(text, at);
    return scan ? take(text, at, scan, kind) : null;
  };
}

const Figure: TokenType = token("Figure", numberStarts, figure("number"), { plain: true });
const Ratio: TokenType = token("Ratio", digits, figure("ratio"), { plain: true });
const CalendarDate = token("CalendarDate", digits, figure("date"), { plain: true });

/** `recipe magnesium-4g {` in column 1: closes whatever is open. */
export const DeclarationWord = token(
  "DeclarationWord",
  letters,
  (text, at) => {
    const inColumnOne = isLineStart(text, at) || (text.charCodeAt(at - 1) === 0xfeff && isLineStart(text, at - 1));
    return inColumnOne && declarationHeadAt(text, at) ? take(text, at, scanName(text, at), "word") : null;
  },
  { plain: true },
);

/** `source`, `because`, `by`, `until` or `when` as the first word of a line. */
export const TrailingWord = token(
  "TrailingWord",
  codes("sSbBuUwW"),
  (text, at, matched) => {
    const before = matched[matched.length - 1]?.tokenType;
    if (before !== undefined && before !== Newline) return null;
    const scan = scanName(text, at);
    return scan.end - at < 8 && isTrailingWord(text.slice(at, scan.end)) ? [text.slice(at, scan.end)] : null;
  },
  { plain: true },
);

export const Word = token("Word", letters, (text, at) => take(text, at, scanName(text, at), "word"), { plain: true });

const Comma = createToken({ name: "Comma", pattern: ",", categories: [Plain] });
const Equals = createToken({ name: "Equals", pattern: "=", categories: [Plain] });
export const Open = createToken({ name: "Open", pattern: "{" });
export const Close = createToken({ name: "Close", pattern: "}" });

/** A brace, or a head with its brace, that is one too many: so marked after reading the tokens, see mend.ts. */
export const Stray = createToken({ name: "Stray", pattern: Lexer.NA });

export const Faulty = token(
  "Faulty",
  anything,
  (text, at) => {
    const scan = faultAt(text, at);
    const match = [text.slice(at, scan.end)] as CustomPatternMatcherReturn;
    match.payload = scan.fault;
    return match;
  },
  { plain: true },
);

function faultAt(text: string, at: number): Scan {
  const number = figureAt(text, at);
  if (number) return number;
  if (isQuote(text, at)) return scanString(text, at);
  if (startsName(text, at)) return scanName(text, at);
  return scanSymbol(text, at);
}

/**
 * In the order in which they are tried. The four literals come first, because Chevrotain tries every pattern on each of them
 * when it looks for types that can never match.
 */
export const tokenTypes = [
  Comma,
  Equals,
  Open,
  Close,
  Newline,
  Blank,
  Comment,
  Text,
  Unit,
  Figure,
  Ratio,
  CalendarDate,
  DeclarationWord,
  TrailingWord,
  Word,
  Faulty,
  Plain,
  Stray,
];

/** Chevrotain's own validation of the patterns is left to a test: it costs every start of the command line. */
export function newLexer(skipValidations = true): Lexer {
  return new Lexer(tokenTypes, { positionTracking: "onlyOffset", ensureOptimizations: true, skipValidations });
}

const lexer = newLexer();

const kinds = new Map<TokenType, TokenKind>([
  [Text, "string"],
  [Unit, "unit"],
  [Figure, "number"],
  [Ratio, "ratio"],
  [CalendarDate, "date"],
  [DeclarationWord, "word"],
  [TrailingWord, "word"],
  [Word, "word"],
  [Comma, "comma"],
  [Equals, "equals"],
  [Open, "open"],
  [Close, "close"],
]);

export interface Lexed {
  tokens: IToken[];
  comments: { start: number; end: number }[];
}

/** The tokens of a text, newlines included, and its comments. */
export function lex(text: string): Lexed {
  const { tokens, groups, errors } = lexer.tokenize(text);
  scanned = undefined;
  // The last pattern takes any character, so an error here is a fault of this file, not of the text.
  if (errors.length > 0) throw new Error(`The lexer left a character unread: ${errors[0]!.message}`);
  const comments = groups.comments!.map((c) => ({ start: c.startOffset, end: c.startOffset + c.image.length }));
  return { tokens, comments };
}

/** The small token of the tree. */
export function toToken(from: IToken): Token {
  const { image, startOffset: start } = from;
  const end = start + image.length;
  const kind = kinds.get(from.tokenType === Stray ? (from.payload as TokenType) : from.tokenType);
  if (kind !== undefined) return { kind, text: shared(image), start, end };
  return { kind: "faulty", text: image, start, end, fault: from.payload as TokenFault };
}
