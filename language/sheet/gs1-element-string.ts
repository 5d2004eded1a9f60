/**
 * The GS1 element string of a finished container, in its human-readable form with brackets.
 *
 * Which identifiers a prepared bag truly has: a trade number (GTIN, AI 01) only where the site has allotted one to the
 * preparation. Then batch (10), serial number (21) and expiry with time of day (7003) may follow it. Without a GTIN they may not
 * stand: GS1 General Specifications, mandatory association of element strings (AI 10, 21 and 7003 need an AI that identifies the
 * trade item). So without one the code holds internal identifiers alone (AI 91 to 94, "company internal information"), which
 * have a meaning inside the site only.
 */
import type { Moment } from "../model/moments.ts";

export interface CodeFacts {
  preparation: string;
  number: string | undefined;
  /** 8 to 14 digits whose check digit agrees. */
  gtin: string | undefined;
  end: Moment | undefined;
  /** Of several containers with one number. */
  unit: number | undefined;
}

export interface ElementString {
  text: string;
  /** One line for each part, in order. */
  meaning: string[];
}

export function elementString({ preparation, number, gtin, end, unit }: CodeFacts): ElementString {
  const parts: [ai: string, value: string, meaning: string][] = [];
  const time = end ? compactTime(end) : undefined;
  if (gtin !== undefined) {
    parts.push(["01", gtin.padStart(14, "0"), "trade number of the preparation"]);
    if (time) parts.push(["7003", time, "use before, year month day hour minute"]);
    if (number) parts.push(["10", number, "batch"]);
    if (unit) parts.push(["21", String(unit), "container"]);
  } else {
    parts.push(["91", preparation, "preparation, internal"]);
    if (time) parts.push(["93", time, "use before, internal: year month day hour minute"]);
    if (number) parts.push(["92", number, "number, internal"]);
    if (unit) parts.push(["94", String(unit), "container, internal"]);
  }
  return {
    text: parts.map(([ai, value]) => `(${ai})${value}`).join(""),
    meaning: parts.map(([ai, value, meaning]) => `(${ai}) ${value}: ${meaning}`),
  };
}

/** `2611260930`: YYMMDDhhmm, the form of AI 7003. */
function compactTime(m: Moment): string {
  const two = (n: number) => String(n % 100).padStart(2, "0");
  return [m.date.year, m.date.month, m.date.day, m.hour, m.minute].map(two).join("");
}

/** Signs that every AI here may hold: GS1 character set 82 (General Specifications, figure of the encodable character set). */
const set82 = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]+$/;

/** Why a text cannot stand in the code, or undefined where it can. `most`: 20 for AI 10, 90 for AI 91 to 94. */
export function codeFault(text: string, most: number): string | undefined {
  if (text.length > most) return `it is longer than the ${most} signs that the bar code takes`;
  if (!set82.test(text)) return "it holds a sign that a GS1 code cannot carry; use letters, digits and - . / _";
  // A bracket would be read as the start of the next identifier in the printed form.
  return /[()]/.test(text) ? "it holds a bracket, which marks the identifiers in the printed form" : undefined;
}
