/** Values in FHIR's form: exact figures as JSON numbers, units by their UCUM codes, names of resources, readable text. */
import { sha256 } from "@noble/hashes/sha2.js";
import { Exact } from "../quantities/exact.ts";
import type { Quantity as OwnQuantity } from "../quantities/quantity.ts";
import { findUnit } from "../quantities/unit.ts";
import type { Narrative, Quantity, Ratio } from "./fhir-shapes.ts";

const ucum = "http://unitsofmeasure.org";

/** Digits that a figure keeps when it cannot be said in full. */
const roundedDigits = 6;

/** A figure for JSON. `isRounded`: it does not end, or has more digits than a reader's number keeps, and was rounded half up. */
export interface Told {
  value: number;
  isRounded: boolean;
}

/**
 * JSON numbers are read as binary floating point nearly everywhere. The number is therefore only given where its shortest decimal
 * text is the exact figure; what cannot be said so is rounded here by decimal arithmetic, and that is told.
 */
export function told(value: Exact): Told {
  const own = value.plain();
  const number = own.terminates() ? Number(own.toText()) : Number.NaN;
  if (Number.isFinite(number) && Exact.of(String(number)).equals(own)) return { value: number, isRounded: false };
  return { value: Number(own.roundedToDigits(roundedDigits).toText()), isRounded: true };
}

/** Collects what was rounded or could not be said, so that no export is silent about it. */
export interface Losses {
  rounded: Set<string>;
  asText: Set<string>;
}

/** @param what names the figure for whoever reads what was lost */
export function quantityOf({ value, unit }: OwnQuantity, what: string, losses: Losses): Quantity {
  const { value: number, isRounded } = told(value);
  if (isRounded) losses.rounded.add(`${what}: rounded to ${roundedDigits} figures (${number} ${unit.spelling})`);
  if (unit.ucum === "") {
    losses.asText.add(`${what}: "${unit.spelling}" has no UCUM code`);
    return { value: number, unit: unit.spelling };
  }
  return { value: number, unit: unit.spelling, system: ucum, code: unit.ucum };
}

/** So many containers. UCUM has no unit for them, and a code in braces would be one made up. */
export function pieceOf(what: string): Quantity {
  return { value: 1, unit: what };
}

/** A strength as amount over volume: `500 mg/mL` is 500 mg over 1 mL, `5 % w/v` 5 g over 100 mL. Undefined for another thing. */
export function strengthRatio(strength: OwnQuantity, what: string, losses: Losses): Ratio | undefined {
  const { unit } = strength;
  if (unit.spelling === "% w/v") {
    const grams = quantityOf({ value: strength.value, unit: findUnit("g").unit! }, what, losses);
    return { numerator: grams, denominator: quantityOf(millilitres(Exact.of(100)), what, losses) };
  }
  const [above, below, third] = unit.spelling.split("/").map((spelling) => findUnit(spelling).unit);
  if (!above || !below || third || below.dimension.key !== "volume") return undefined;
  return {
    numerator: quantityOf({ value: strength.value, unit: above }, what, losses),
    denominator: quantityOf({ value: Exact.one, unit: below }, what, losses),
  };
}

export function ratioOf(above: OwnQuantity, below: OwnQuantity, what: string, losses: Losses): Ratio {
  return { numerator: quantityOf(above, what, losses), denominator: quantityOf(below, `${what}, volume`, losses) };
}

export function millilitres(volume: Exact): OwnQuantity {
  return { value: volume, unit: findUnit("mL").unit! };
}

/**
 * `urn:uuid:` of a thing by what tells it from every other: the same thing has the same name in every export. UUID version 8 (RFC
 * 9562, section 5.8) from SHA-256, since version 5 would ask for SHA-1.
 */
export function urn(...parts: readonly string[]): string {
  const bytes = sha256(new TextEncoder().encode(JSON.stringify(parts))).slice(0, 16);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return `urn:uuid:${hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5")}`;
}

/** FHIR's texts hold no control characters, which JSON would carry on into other programs. */
export function plainText(text: string): string {
  return text.replace(/\p{Cc}+/gu, " ").trim();
}

export function narrative(lines: readonly string[]): Narrative {
  const escaped = (text: string) => plainText(text).replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
  const body = lines.map((text) => `<p>${escaped(text)}</p>`).join("");
  return { status: "generated", div: `<div xmlns="http://www.w3.org/1999/xhtml">${body}</div>` };
}
