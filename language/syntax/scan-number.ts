/**
 * Tokens that begin with a digit: numbers, ratios, dates and what is mistaken for them. Number tokens are broad: whether a
 * figure has one reading is judged by quantities/notation.ts, so that bad notation still lexes and gets its own finding.
 */
import {
  blankClass,
  endsRun,
  isBlank,
  isDigit,
  isLetter,
  isThinSpace,
  isVulgarFraction,
  runEnd,
} from "./characters.ts";
import type { TokenFault, TokenKind } from "./tree.ts";
import { isWordAfterNumber, unitsOfTwoWords } from "./words.ts";

export interface Scan {
  kind: TokenKind;
  end: number;
  fault?: TokenFault;
}

const goodDate = /^(?:19|20)\d\d-\d\d(?:-\d\d)?$/;
const dateLike =
  /^(?:(?:19|20)\d\d-\d{1,2}(?:-.*|[^\d-].*)?|\d{1,2}-\d{1,2}-(?:\d\d|\d{4})|\d{1,2}\/\d{1,2}\/(?:\d\d|\d{4})|(?:19|20)\d\d\/\d{1,2}(?:\/\d{1,2})?|\d{1,2}\/(?:19|20)\d\d|\d{1,2}\.\d{1,2}\.(?:\d\d|\d{4})|(?:19|20)\d\d\.\d{1,2}\.\d{1,2})$/su;

/** A number, ratio or date at `at`, which is a digit, a fraction sign, `.` before a digit, or `-` before one of these. */
export function scanNumber(text: string, at: number): Scan {
  const first = text.charCodeAt(at);
  if (isVulgarFraction(first)) return { kind: "number", end: at + 1 };
  const end = digitsEnd(text, first === 45 ? at + 1 : at);
  if (first !== 45) {
    const next = text.charCodeAt(end);
    const second = secondOfRatio(text, at, end);
    if (second !== undefined) return { kind: "ratio", end: digitsEnd(text, second) };
    if (next === 45 || next === 47 || isDash(next) || text.slice(at, end).includes(".")) {
      const scan = scanHyphened(text, at, end);
      if (scan) return scan;
    }
  }
  return { kind: "number", end: compositeEnd(text, at, end) ?? magnitudeEnd(text, end) };
}

const ratioSign = /[ \u00a0\u2009\u202f]?[:\u2236][ \u00a0\u2009\u202f]?(?=\d)/y;

/** `1:1,000`, `1 : 1,000`, and `4:30`, which may be a time: where the figure behind the sign begins. */
function secondOfRatio(text: string, at: number, end: number): number | undefined {
  const c = text.charCodeAt(end);
  if (end - at > 3 || (c !== 58 && c !== 0x2236 && !isBlank(c))) return undefined;
  ratioSign.lastIndex = end;
  return ratioSign.test(text) ? ratioSign.lastIndex : undefined;
}

const fractionOrPower = /\/\d{1,3}(?![^\s,#"={}])|\^-?\d{1,9}|[eE][+-]?\d{1,3}(?![^\s,#"={}])/y;
const mixedFraction = / (?:[½¼¾⅛⅓⅔]|\d\/\d{1,2}(?![^\s,#"={}]))/y;
const timesPower = / ?[x×*·] ?10(?:\^\d{1,2}|[⁰¹²³⁴-⁹]{1,2})/y;
const raisedSigns = /[⁰¹²³⁴-⁹]{1,2}/y;
// Six groups reach beyond any amount; three figures exactly, or what follows is another number.
const spacedGroups = /(?: \d{3}){1,6}(?![\d:^/-]|\.\d*\.)(?:\.\d+)?/y;

/**
 * `1½`, `1 1/2`, `1/2`, `10^6`, `5 x 10⁶` and `10 000` are one figure each, so that the line around them keeps its meaning; whether they have one
 * reading is judged later.
 */
function compositeEnd(text: string, at: number, end: number): number | undefined {
  const c = text.charCodeAt(end);
  if (isVulgarFraction(c)) return end + 1;
  timesPower.lastIndex = end;
  if (timesPower.test(text)) return timesPower.lastIndex;
  raisedSigns.lastIndex = end;
  if (raisedSigns.test(text) && text.slice(at, end) === "10") return raisedSigns.lastIndex;
  mixedFraction.lastIndex = end;
  if (c === 32 && end - at <= 2 && mixedFraction.test(text)) return mixedFraction.lastIndex;
  const isPower = c === 94 || (c | 32) === 101;
  const shape = c === 47 || isPower ? fractionOrPower : c === 32 && end - at <= 3 ? spacedGroups : undefined;
  const plain = isPower ? /^\d{1,3}(?:\.\d{1,4})?$/ : /^\d{1,3}$/;
  if (!shape || !isDigit(text.charCodeAt(end - 1)) || !plain.test(text.slice(at, Math.min(end, at + 9))))
    return undefined;
  shape.lastIndex = end;
  return shape.test(text) ? shape.lastIndex : undefined;
}

/** Whether a number begins at `at`; `-` only after a blank, so that a hyphen between figures is never a sign. */
export function startsNumber(text: string, at: number): boolean {
  const c = text.charCodeAt(at);
  return isDigit(c) || (c === 46 && isDigit(text.charCodeAt(at + 1))) || isVulgarFraction(c);
}

function digitsEnd(text: string, at: number): number {
  let end = text.charCodeAt(at) === 46 ? at + 1 : at;
  for (;;) {
    const c = text.charCodeAt(end);
    if (isDigit(c)) end++;
    else if ((c === 46 || c === 44 || isThinSpace(c) || isApostrophe(c)) && isDigit(text.charCodeAt(end + 1))) end += 2;
    else if (isRaisedPoint(c) && isDigit(text.charCodeAt(end + 1)) && !isTimesPower(text, end)) end += 2;
    else return end;
  }
}

/** `4'000` is one figure in Switzerland. */
function isApostrophe(c: number): boolean {
  return c === 39 || c === 0x2019;
}

/** `4·5` is a decimal in older British print; elsewhere the sign is a product. */
function isRaisedPoint(c: number): boolean {
  return c === 0xb7 || c === 0x2219;
}

function isTimesPower(text: string, at: number): boolean {
  timesPower.lastIndex = at;
  return timesPower.test(text);
}

function isDash(c: number): boolean {
  return (c >= 0x2010 && c <= 0x2015) || c === 0x2212;
}

// No date or range is recognised by what stands further off. The look is bounded because a long glued run may hold many
// numbers, each of which looks ahead; the whole run is walked only when it becomes one token.
const longestLook = 64;

function scanHyphened(text: string, at: number, numberEnd: number): Scan | undefined {
  const lookEnd = runEnd(text, Math.min(numberEnd, at + longestLook), at + longestLook);
  const look = text.slice(at, lookEnd);
  if (goodDate.test(look)) return { kind: "date", end: lookEnd };
  if (dateLike.test(look)) return { kind: "faulty", end: runEnd(text, lookEnd), fault: "date-shape" };
  const next = text.charCodeAt(numberEnd);
  if (next !== 45 && !isDash(next)) return undefined;
  const after = text.charCodeAt(numberEnd + 1);
  if (isDigit(after) || (after === 46 && isDigit(text.charCodeAt(numberEnd + 2)))) {
    return { kind: "faulty", end: rangeEnd(text, runEnd(text, numberEnd)), fault: "hyphen-range" };
  }
  return isLetter(after)
    ? { kind: "faulty", end: runEnd(text, numberEnd), fault: "name-begins-with-digit" }
    : undefined;
}

/** `60-100 kg` is one token with its unit, so that the finding can offer `60 kg to 100 kg`. */
function rangeEnd(text: string, end: number): number {
  if (!isDigit(text.charCodeAt(end - 1))) return end;
  let at = end;
  while (isBlank(text.charCodeAt(at))) at++;
  return at > end ? (unitEnd(text, at) ?? end) : end;
}

const magnitudes = ["million", "thousand"] as const;
const badMagnitude = new RegExp(
  `[${blankClass}]?(?:MM|M|K)(?=[${blankClass}]{1,9}(?:units?|u|iu|mcg|mg|g)(?![A-Za-z0-9-]))`,
  "iy",
);

/** `5 million` and `5 thousand` are numbers; `5 M units` too, which the notation rules then refuse. */
function magnitudeEnd(text: string, end: number): number {
  const c = text.charCodeAt(end);
  const gap = c !== 9 && isBlank(c) ? 1 : 0;
  if (gap === 0 && !isLetter(c)) return end;
  for (const word of magnitudes) {
    const wordEnd = end + gap + word.length;
    if (gap === 1 && text.startsWith(word, end + gap) && endsRun(text, wordEnd)) return wordEnd;
  }
  const letter = text.charCodeAt(end + gap) | 32;
  if (letter !== 109 && letter !== 107) return end;
  badMagnitude.lastIndex = end;
  return badMagnitude.test(text) ? badMagnitude.lastIndex : end;
}

const figureBelow = /\/\d[\d.,]*$/;
const percentKind = new RegExp(`[${blankClass}]{1,9}(?:[wm]/v|v/v|w/w|m/m|\\((?:[wm]/v|v/v|w/w|m/m)\\))`, "iy");
const secondWord = new RegExp(`[${blankClass}]{1,9}(?=(units?)(?![A-Za-z0-9-]))`, "iy");

/**
 * End of the unit that begins at `at`, directly after a number or ratio: all up to a blank or one of , # " = { }. Undefined
 * when a word of the language or something that begins no unit stands there.
 */
export function unitEnd(text: string, at: number): number | undefined {
  if (!startsUnit(text, at)) return undefined;
  const end = runEnd(text, at);
  if (end - at < 16 && isWordAfterNumber(text.slice(at, end))) return undefined;
  if (isLetter(text.charCodeAt(at)) && end - at < 16 && unitsOfTwoWords.includes(text.slice(at, end).toLowerCase())) {
    secondWord.lastIndex = end;
    return secondWord.test(text) ? runEnd(text, secondWord.lastIndex) : end;
  }
  if (isDigit(text.charCodeAt(end - 1)) && figureBelow.test(text.slice(Math.max(at, end - 12), end))) {
    // `mg/5 mL` is one unit with a finding; in two pieces the rest of the line would lose its meaning.
    const next = text.charCodeAt(end) === 32 && isLetter(text.charCodeAt(end + 1)) ? runEnd(text, end + 1) : end;
    return next - end < 16 && isWordAfterNumber(text.slice(end + 1, next)) ? end : next;
  }
  if (end - at !== 1 || text.charCodeAt(at) !== 37) return end;
  percentKind.lastIndex = end;
  return percentKind.test(text) && endsRun(text, percentKind.lastIndex) ? percentKind.lastIndex : end;
}

const letterBeyondAscii = /^\p{L}/u;

// A letter, % (also per mille), the degree sign, or a slash: `24 h`, `5 %`, `37 °C`, `3 /h`.
function startsUnit(text: string, at: number): boolean {
  const c = text.charCodeAt(at);
  if (c < 128) return isLetter(c) || c === 37 || (c === 47 && !endsRun(text, at + 1));
  return c === 0xb0 || c === 0x2030 || letterBeyondAscii.test(String.fromCodePoint(text.codePointAt(at) ?? 0));
}
