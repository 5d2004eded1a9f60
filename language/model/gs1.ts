/**
 * GS1 element strings: what a scan of a medicine's barcode carries. Reads 01, 10, 11, 15, 17, 21 and 7003.
 * Sources: GS1 General Specifications; GS1 Application Identifiers list, rows 00-13.
 *
 * Invariants:
 * - What cannot be read in one way only is a fault with its place. While there is a fault, `lot`, `expiry` and `gtin` are
 *   all left out: after a slip in one element, none of the others can be trusted.
 * - Only 17 and 7003 are an expiry. 11 is the day of production, 15 a best-before.
 * - A notice leaves the reading as it is.
 */
import { calendarDate, compareDates, type Expiry, isDateFault, type MonthOnlyReading, monthExpiry } from "./dates.ts";
import { type Gtin, isGtinFault, readGtin } from "./gtin.ts";

export interface Gs1Reading {
  /** Every element found, also in a faulty text. Offsets in the given text, `end` exclusive, over the value alone. */
  elements: Gs1Element[];
  faults: Gs1Remark<Gs1FaultKind>[];
  notices: Gs1Remark<Gs1NoticeKind>[];
  gtin?: Gtin;
  /** Lot as text: zeros and case as encoded. */
  lot?: string;
  serial?: string;
  expiry?: Expiry;
}

export interface Gs1Element {
  /** Application identifier, such as `17`. */
  ai: string;
  value: string;
  start: number;
  end: number;
}

export interface Gs1Remark<K extends string> {
  kind: K;
  message: string;
  start: number;
  end: number;
}

export type Gs1FaultKind =
  | "empty"
  | "not-gs1"
  | "unknown-element"
  | "too-short"
  | "too-long"
  | "empty-element"
  | "other-characters"
  | "separator-written-out"
  | "brackets"
  | "date"
  | "gtin"
  | "stated-twice";

/** `day-00`: a month-only date, no longer allowed on new packs. `separator-lost`: the lot may have swallowed an expiry. */
export type Gs1NoticeKind = "day-00" | "separator-lost" | "no-lot" | "no-expiry";

export interface Gs1Options {
  /** Four digits; decides the century of two-digit years. */
  currentYear: number;
  monthOnly?: MonthOnlyReading;
}

interface ElementDef {
  title: string;
  /** Exact length, or the most where `variable`. */
  length: number;
  variable: boolean;
}

const known: Readonly<Record<string, ElementDef>> = {
  "01": { title: "pack number", length: 14, variable: false },
  "10": { title: "lot", length: 20, variable: true },
  "11": { title: "production date", length: 6, variable: false },
  "15": { title: "best-before date", length: 6, variable: false },
  "17": { title: "expiry", length: 6, variable: false },
  "21": { title: "serial number", length: 20, variable: true },
  "7003": { title: "expiry with time", length: 10, variable: false },
};

const separator = "\u001d";

/** The 82 characters GS1 allows in a lot or serial number. */
const allowed = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]*$/;

/** Four-digit year of a two-digit one: from 49 years back to 50 years ahead of the current year. */
export function fullYear(twoDigitYear: number, currentYear: number): number {
  const century = currentYear - (currentYear % 100);
  const difference = twoDigitYear - (currentYear % 100);
  if (difference >= 51) return century - 100 + twoDigitYear;
  return difference <= -50 ? century + 100 + twoDigitYear : century + twoDigitYear;
}

/** The date of YYMMDD, or a sentence saying why it is none. Day 00 stands for the month. */
export function readGs1Date(digits: string, options: Gs1Options): Expiry | { fault: string; message: string } {
  if (!/^\d{6}$/.test(digits)) {
    return { fault: "not-a-date", message: `${digits} is not six digits for year, month and day. Scan again.` };
  }
  const year = fullYear(Number(digits.slice(0, 2)), options.currentYear);
  const [month, day] = [Number(digits.slice(2, 4)), Number(digits.slice(4))];
  if (day === 0) return monthExpiry(year, month, digits, options.monthOnly);
  const date = calendarDate(year, month, day, digits);
  return isDateFault(date) ? date : { text: digits, precision: "day", lastDay: date };
}

/** Reads a scanned text, with or without its symbology prefix, or the printed form with numbers in brackets. */
export function readElementString(text: string, options: Gs1Options): Gs1Reading {
  const reading: Gs1Reading = { elements: [], faults: [], notices: [] };
  const start = prefixEnd(text, reading);
  const written = /<GS>|\u241d|\{GS\}/i.exec(text);
  if (written) {
    const message = `The separator stands as the text ${written[0]}. Set the scanner or the export to pass on the separator itself (ASCII 29).`;
    reading.faults.push({
      kind: "separator-written-out",
      message,
      start: written.index,
      end: written.index + written[0].length,
    });
  } else if (start === text.length) {
    reading.faults.push({
      kind: "empty",
      message: "The barcode text is empty. Scan the pack.",
      start: 0,
      end: text.length,
    });
  } else if (reading.faults.length === 0) {
    if (text[start] === "(") splitPrinted(text, start, reading);
    else splitScanned(text, start, reading);
    interpret(reading, options);
  }
  return reading;
}

/** `]d2` is a GS1 DataMatrix, `]C1` a GS1-128; any other prefix belongs to a symbol that is not read as GS1. */
function prefixEnd(text: string, reading: Gs1Reading): number {
  if (!text.startsWith("]")) return text.startsWith(separator) ? 1 : 0;
  const prefix = text.slice(0, 3);
  if (prefix !== "]d2" && prefix !== "]C1") {
    const message = `The scan begins with ${prefix}, which is neither GS1 DataMatrix (]d2) nor GS1-128 (]C1). Scan the GS1 code of the pack.`;
    reading.faults.push({ kind: "not-gs1", message, start: 0, end: prefix.length });
  }
  return text[3] === separator ? 4 : 3;
}

function knownAt(text: string, at: number): string | undefined {
  return [text.slice(at, at + 2), text.slice(at, at + 4)].find((ai) => Object.hasOwn(known, ai));
}

/** The scanned form: fixed lengths one after another, a variable one up to its separator or the end. */
function splitScanned(text: string, from: number, reading: Gs1Reading): void {
  let at = from;
  while (at < text.length) {
    const ai = knownAt(text, at);
    if (ai === undefined) {
      const found = text.slice(at, at + 4).replaceAll(separator, "(separator)");
      const message = `At character ${at + 1} stands ${found}, which begins no element that is read (01, 10, 11, 15, 17, 21, 7003). Enter lot and expiry from the pack.`;
      reading.faults.push({ kind: "unknown-element", message, start: at, end: Math.min(at + 4, text.length) });
      return;
    }
    const def = known[ai]!;
    const start = at + ai.length;
    const stop = text.indexOf(separator, start);
    const close = stop === -1 ? text.length : stop;
    const end = def.variable ? close : Math.min(start + def.length, close);
    if (!addElement({ ai, value: text.slice(start, end), start, end }, reading)) return;
    at = text[end] === separator ? end + 1 : end;
  }
}

/** The printed form `(01)…(17)…(10)…`. A bracket inside a value could be its own or begin the next element: refused. */
function splitPrinted(text: string, from: number, reading: Gs1Reading): void {
  const body = text.slice(from);
  const marks = [...body.matchAll(/\((\d{2,4})\)/g)];
  for (const [i, mark] of marks.entries()) {
    const ai = mark[1]!;
    const open = from + mark.index;
    const rawStart = open + mark[0].length;
    const rawEnd = from + (marks[i + 1]?.index ?? body.length);
    if (!Object.hasOwn(known, ai)) {
      const message = `(${ai}) is not an element that is read (01, 10, 11, 15, 17, 21, 7003). Enter lot and expiry from the pack.`;
      reading.faults.push({ kind: "unknown-element", message, start: open, end: rawStart });
      return;
    }
    const raw = text.slice(rawStart, rawEnd);
    const start = rawStart + raw.length - raw.trimStart().length;
    const value = raw.trim();
    const end = start + value.length;
    if (/[()]/.test(value)) {
      const message = `${value} holds a bracket, so that its end is not certain. Scan the barcode, or enter lot and expiry from the pack.`;
      reading.faults.push({ kind: "brackets", message, start, end });
      return;
    }
    if (!addElement({ ai, value, start, end }, reading)) return;
  }
  if (marks[0]?.index !== 0) {
    const message = `${text} begins with a bracket but not with an element such as (01). Scan the barcode, or copy the line below it whole.`;
    reading.faults.push({ kind: "brackets", message, start: from, end: text.length });
  }
}

/** Keeps an element and says whether it has the right shape. */
function addElement(element: Gs1Element, reading: Gs1Reading): boolean {
  const { ai, value, start, end } = element;
  const def = known[ai]!;
  const say = (kind: Gs1FaultKind, message: string) => {
    reading.faults.push({ kind, message: `${message} Scan again, or enter lot and expiry from the pack.`, start, end });
    return false;
  };
  const before = reading.elements.find((e) => e.ai === ai);
  reading.elements.push(element);
  const name = `The ${def.title} (${ai})`;
  if (value === "") return say("empty-element", `${name} is empty.`);
  if (before && before.value !== value)
    return say("stated-twice", `${name} stands twice, ${before.value} and ${value}.`);
  if (value.length > def.length)
    return say("too-long", `${name} has ${value.length} characters, at most ${def.length} are possible.`);
  if (!def.variable && value.length < def.length) {
    return say("too-short", `${name} has ${value.length} characters, ${def.length} are needed.`);
  }
  if (def.variable ? !allowed.test(value) : !/^[0-9]+$/.test(value)) {
    return say(
      "other-characters",
      `${name} reads ${value.replaceAll(/\p{Cc}/gu, "?")}, with characters that cannot stand in it.`,
    );
  }
  return true;
}

/** Understands the elements; fills the result only where nothing is in doubt. */
function interpret(reading: Gs1Reading, options: Gs1Options): void {
  const first = (ai: string) => reading.elements.find((e) => e.ai === ai);
  if (reading.faults.length > 0) return;
  const number = first("01");
  const gtin = number && readGtin(number.value);
  if (number && gtin && isGtinFault(gtin)) reading.faults.push(remark("gtin", gtin.message, number));
  for (const ai of ["11", "15"]) readDay(first(ai), reading, options);
  const day = readDay(first("17"), reading, options);
  const timed = readTimed(first("7003"), reading, options);
  if (day && timed && compareDates(day.lastDay, timed.lastDay) !== 0) {
    const message = `The expiry (17) ${day.text} and the expiry with time (7003) ${timed.text} name two days. Enter the expiry from the pack.`;
    reading.faults.push(remark("stated-twice", message, first("7003")!));
  }
  if (reading.faults.length > 0) return;
  const [lot, serial, expiry] = [first("10")?.value, first("21")?.value, timed ?? day];
  if (gtin && !isGtinFault(gtin)) reading.gtin = gtin;
  if (lot !== undefined) reading.lot = lot;
  if (serial !== undefined) reading.serial = serial;
  if (expiry) reading.expiry = expiry;
  notice(reading, options);
}

function remark<K extends string>(kind: K, message: string, place: { start: number; end: number }): Gs1Remark<K> {
  return { kind, message, start: place.start, end: place.end };
}

function readDay(element: Gs1Element | undefined, reading: Gs1Reading, options: Gs1Options): Expiry | undefined {
  if (!element) return undefined;
  const date = readGs1Date(element.value.slice(0, 6), options);
  if ("fault" in date) {
    reading.faults.push(remark("date", `The ${known[element.ai]!.title} (${element.ai}): ${date.message}`, element));
    return undefined;
  }
  if (date.precision === "month") {
    const message = `${element.value} gives no day, only the month. New packs must carry the day since 2025-01-01; compare with the printed expiry.`;
    reading.notices.push(remark("day-00", message, element));
  }
  return date;
}

/** 7003: YYMMDDHHMM. */
function readTimed(element: Gs1Element | undefined, reading: Gs1Reading, options: Gs1Options): Expiry | undefined {
  const day = readDay(element, reading, options);
  if (!element || !day) return undefined;
  const [hour, minute] = [Number(element.value.slice(6, 8)), Number(element.value.slice(8))];
  if (hour <= 23 && minute <= 59 && day.precision === "day")
    return { ...day, text: element.value, time: { hour, minute } };
  const message = `The expiry with time (7003) ${element.value} needs a day, an hour from 00 to 23 and a minute from 00 to 59. Enter the expiry from the pack.`;
  reading.faults.push(remark("date", message, element));
  return undefined;
}

/** What is missing, and a lot whose end looks like an expiry while the text has none: a scanner may drop separators. */
function notice(reading: Gs1Reading, options: Gs1Options): void {
  const whole = { start: reading.elements[0]!.start, end: reading.elements.at(-1)!.end };
  if (reading.lot === undefined) {
    reading.notices.push(remark("no-lot", "The barcode carries no lot (10). Enter the lot from the pack.", whole));
  }
  if (reading.expiry) return;
  reading.notices.push(
    remark("no-expiry", "The barcode carries no expiry (17). Enter the expiry from the pack.", whole),
  );
  for (const element of reading.elements.filter((e) => known[e.ai]!.variable)) {
    const tail = /.17(\d{6})/.exec(element.value);
    if (!tail || "fault" in readGs1Date(tail[1]!, options)) continue;
    const message = `The ${known[element.ai]!.title} reads ${element.value}, and 17${tail[1]} in it may be an expiry whose separator was lost. Compare with the pack and check the scanner's settings.`;
    reading.notices.push(remark("separator-lost", message, element));
  }
}
