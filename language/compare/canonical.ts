/**
 * The meaning of one statement as plain data: what it says without how it is written. `4 g` and `4000 mg` are one value, places and
 * blanks are gone, names stay names. Whatever the model could not read is kept as its words, so that nothing drops out of a
 * comparison or a fingerprint.
 */
import type {
  BoundSlot,
  ConditionSlot,
  MeasureSlot,
  NameSlot,
  NumberSlot,
  RangeSlot,
  SourceSlot,
  TextSlot,
} from "../model/slots.ts";
import type { Exact } from "../quantities/exact.ts";
import { inBase, type Quantity } from "../quantities/quantity.ts";
import type { Token } from "../syntax/tree.ts";

/** What canonical JSON can hold. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** Names as the other side calls them: the same name where nothing was renamed. */
export type NameOf = (name: string) => string;

export const sameName: NameOf = (name) => name;

/** A value of a statement: names, choices, quantities in base units. Keys without a value are left out. */
export function plainSlots(slots: object, nameOf: NameOf): { [key: string]: Plain } {
  const plain: { [key: string]: Plain } = {};
  for (const [key, slot] of Object.entries(slots)) if (slot !== undefined) plain[key] = plainSlot(slot, nameOf);
  return plain;
}

/** The shapes are those of model/slots.ts; each has a field that no other has. */
function plainSlot(slot: unknown, nameOf: NameOf): Plain {
  if (Array.isArray(slot)) return slot.map((each) => plainSlot(each, nameOf));
  const shape = slot as Record<string, unknown>;
  if ("name" in shape) return { name: nameOf((slot as NameSlot).name) };
  if ("quantity" in shape) return plainMeasure(slot as MeasureSlot);
  if ("isRange" in shape) return plainRange(slot as RangeSlot);
  if ("value" in shape) return plainNumber(slot as NumberSlot);
  if ("choice" in shape) return String(shape.choice);
  if ("input" in shape) return plainCondition(slot as ConditionSlot);
  if ("low" in shape) return plainBound(slot as BoundSlot);
  if ("reference" in shape) return plainSource(slot as SourceSlot, nameOf);
  if ("text" in shape) return { text: (slot as TextSlot).text };
  throw new TypeError(
    `A statement holds something that no form of the language gives: ${Object.keys(shape).join(", ")}.`,
  );
}

/** Number and dimension in one text, so that equal quantities are equal texts: `4/1 mass`. */
export function quantityKey({ value, unit }: Quantity): string {
  return `${inBase({ value, unit }).key()} ${unit.dimension.key}${unit.activityKind ? ` ${unit.activityKind}` : ""}`;
}

export function plainMeasure({ quantity, written }: MeasureSlot): Plain {
  return quantity ? { quantity: quantityKey(quantity) } : { unread: singleBlanks(written) };
}

export function plainRange({ from, to }: Pick<RangeSlot, "from" | "to">): Plain {
  const [low, high] = [plainMeasure(from), plainMeasure(to)];
  return { from: low, to: high };
}

function plainNumber({ value, written }: NumberSlot): Plain {
  return value ? { number: numberKey(value) } : { unread: written };
}

function numberKey(value: Exact): string {
  return value.key();
}

function plainBound({ low, high }: BoundSlot): Plain {
  const end = (side: BoundSlot["low"]): Plain =>
    side ? { ...(plainMeasure(side.measure) as { [key: string]: Plain }), included: side.included } : null;
  return { low: end(low), high: end(high) };
}

/** The input of a condition is a word of the language (`dose`, `weight`), never a declared name. */
export function plainCondition({ input, bound }: ConditionSlot): Plain {
  return { of: input.name, ...(plainBound(bound) as { [key: string]: Plain }) };
}

function plainSource({ reference, where }: SourceSlot, nameOf: NameOf): Plain {
  return { ...(reference ? { reference: nameOf(reference.name) } : {}), ...(where ? { where: where.text } : {}) };
}

/** Tokens with single blanks, as they were written. */
export function wordsOf(tokens: readonly Token[]): string {
  return tokens
    .map((token) => token.text)
    .join(" ")
    .replaceAll(" ,", ",");
}

export function singleBlanks(text: string): string {
  return text.trim().replace(/\s+/g, " ");
}

/** JSON with sorted keys and no blanks: equal data are equal texts. */
export function canonicalJson(value: Plain): string {
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
  const entries = Object.entries(value as { [key: string]: Plain }).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${entries.map(([key, each]) => `${JSON.stringify(key)}:${canonicalJson(each)}`).join(",")}}`;
}
