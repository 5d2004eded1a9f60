/**
 * An amount: an exact value with its unit. Arithmetic between amounts keeps the unit right or refuses, never guesses.
 * What needs to know the substance (mg to mmol, mmol to mEq) is in substance.ts.
 */
import { Exact } from "./exact.ts";
import { grouped, numberText } from "./number-text.ts";
import { activityRefusal, type Refusal, refusalBetween } from "./refusal.ts";
import { findUnit, sizeOf, type Unit, type UnitPart, unitOf } from "./unit.ts";

export { isRefusal, type Refusal } from "./refusal.ts";

export interface Quantity {
  readonly value: Exact;
  readonly unit: Unit;
}

/** `4 g`, `-5 C`, `10,000 units`, for built-in data and tests. Throws RangeError where the text is not a number and a safe unit. */
export function measure(text: string): Quantity {
  const parts = /^(-?[\d,]*\d(?:\.\d+)?(?:e-?\d+)?)\s*(.*)$/.exec(text);
  const { unit, exact } = findUnit(parts?.[2] ?? "");
  if (!parts || !unit || !exact) throw new RangeError(`"${text}" is not a number and a unit in its safe spelling.`);
  return { value: Exact.of((parts[1] ?? "").replaceAll(",", "")), unit };
}

/** The value in base units of its dimension: g, mL, mmol, mEq, mOsm, unit, h, … and their quotients. 5 % is 0.05. */
export function inBase(q: Quantity): Exact {
  return q.value.times(q.unit.factor);
}

/** mL; undefined where it is no volume. */
export function volumeOf(q: Quantity | undefined): Exact | undefined {
  return q?.unit.dimension.key === "volume" ? inBase(q) : undefined;
}

/** True when both measure the same; units and international units do not. */
export function sameDimension(a: Quantity, b: Quantity): boolean {
  return a.unit.dimension === b.unit.dimension && a.unit.activityKind === b.unit.activityKind;
}

/** The same amount in another unit of its dimension, or why not. */
export function toUnit(q: Quantity, unit: Unit): Quantity | Refusal {
  if (q.unit.dimension !== unit.dimension) return refusalBetween(q.unit, unit);
  if (q.unit.activityKind !== unit.activityKind) return activityRefusal(q.unit, unit);
  if (q.unit === unit) return q;
  return { value: q.value.times(q.unit.factor).over(unit.factor), unit };
}

/** -1, 0 or 1. Throws RangeError when the two do not measure the same; callers ask `sameDimension` first. */
export function compareQuantities(a: Quantity, b: Quantity): -1 | 0 | 1 {
  if (!sameDimension(a, b)) throw new RangeError(refusalBetween(a.unit, b.unit).reason);
  return inBase(a).compare(inBase(b));
}

/** In the unit of `a`. */
export function plus(a: Quantity, b: Quantity): Quantity | Refusal {
  const other = toUnit(b, a.unit);
  return "refused" in other ? other : { value: a.value.plus(other.value), unit: a.unit };
}

/** In the unit of `a`. */
export function minus(a: Quantity, b: Quantity): Quantity | Refusal {
  const other = toUnit(b, a.unit);
  return "refused" in other ? other : { value: a.value.minus(other.value), unit: a.unit };
}

/** Product with its unit: 25 mg/mL times 10 mL is 250 mg. What does not cancel stays in the unit. */
export function times(a: Quantity, b: Quantity): Quantity {
  return joined(a.value.times(b.value), [...a.unit.parts, ...b.unit.parts]);
}

/** Quotient with its unit: 4 g over 100 mL is 0.04 g/mL. Throws RangeError when `b` is zero; callers test first. */
export function over(a: Quantity, b: Quantity): Quantity {
  const below = b.unit.parts.map(({ row, power }) => ({ row, power: -power }));
  return joined(a.value.over(b.value), [...a.unit.parts, ...below]);
}

function joined(start: Exact, parts: readonly UnitPart[]): Quantity {
  const kept: UnitPart[] = [];
  let value = start;
  for (const part of parts) {
    value = isTakenAsFigure(part, parts) ? raised(value, sizeOf(part.row), part.power) : mergePart(kept, part, value);
  }
  return { value, unit: unitOf(kept.filter(({ power }) => power !== 0)) };
}

/** A percent of an amount is an amount; a share by volume only of a volume, a share by weight only of a mass. */
function isTakenAsFigure({ row }: UnitPart, parts: readonly UnitPart[]): boolean {
  if (row.axis === "percent") return true;
  const of = row.axis === "volume/volume" ? "volume" : row.axis === "mass/mass" ? "mass" : undefined;
  return of !== undefined && parts.some((part) => part.row.axis === of);
}

/** Puts a part among the others in place; where units of one kind meet, the first stays and the value takes the difference in size. */
function mergePart(kept: UnitPart[], part: UnitPart, value: Exact): Exact {
  const at = kept.findIndex(({ row, power }) => row.axis === part.row.axis && power !== 0);
  const met = kept[at];
  if (!met) {
    kept.push(part);
    return value;
  }
  kept[at] = { row: met.row, power: met.power + part.power };
  return raised(value, sizeOf(part.row).over(sizeOf(met.row)), part.power);
}

function raised(value: Exact, by: Exact, power: number): Exact {
  let result = value;
  for (let i = 0; i < Math.abs(power); i += 1) result = power > 0 ? result.times(by) : result.over(by);
  return result;
}

/** The weight of a patient, for use with figures per kg: 60 kg (a mass) as 60 kg of body weight. Undefined for anything but a mass. */
export function asBodyWeight(q: Quantity): Quantity | undefined {
  if (q.unit.dimension.key !== "mass") return undefined;
  const kg = findUnit("kg").unit!;
  return { value: inBase(q).over(kg.factor), unit: unitOf([{ row: bodyWeightRow(), power: 1 }]) };
}

function bodyWeightRow() {
  return findUnit("mg/kg").unit!.parts[1]!.row;
}

/**
 * For messages: `1,000 mL`, `37.04 mg/mL`, `1 unit`. All digits where the decimal ends, otherwise four significant ones.
 * @param digits significant digits, half up, where fewer are wanted
 */
export function showQuantity({ value: own, unit }: Quantity, digits?: number): string {
  const q = { value: own.plain(), unit };
  const value = digits === undefined ? q.value : q.value.roundedToDigits(digits);
  const text = digits === undefined ? numberText(value, "comma") : grouped(value.toText(), "comma");
  // What is shown as 1 is one: 0.9999 units in two figures are `1 unit`.
  return withUnit(text, unitWord(text === "1" ? { value: Exact.one, unit } : q));
}

/** The unit after this value: `unit` after exactly one, else its canonical spelling. */
export function unitWord(q: Quantity): string {
  return q.unit.singular && q.value.equals(Exact.one) ? q.unit.singular : q.unit.spelling;
}

export function withUnit(number: string, unit: string): string {
  return unit === "" ? number : `${number} ${unit}`;
}

/** Units that the trade changes between by itself, largest first; anything else keeps its unit. */
const ladders: readonly (readonly string[])[] = [
  ["g", "mg", "mcg", "nanograms"],
  ["L", "mL"],
  ["mmol", "mcmol", "nmol"],
  ["h", "min", "s"],
];

/** The unit in which a pharmacist would say it: 4000 mg is 4 g, 0.0005 g is 500 mcg. Only the unit above the line changes. */
export function preferredUnit({ value: own, unit }: Quantity): Quantity {
  const q = { value: own.plain(), unit };
  const [first, ...rest] = q.unit.parts;
  const ladder = ladders.find((each) => first?.power === 1 && each.includes(first.row.spelling));
  if (!ladder || q.value.isZero() || q.unit.spelling.startsWith("%")) return q;
  const below = rest.map(({ row }) => `/${row.spelling}`).join("");
  const choices = ladder
    .map((above) => findUnit(above + below).unit)
    .filter((unit) => unit?.dimension === q.unit.dimension);
  const base = inBase(q).abs();
  const fitting = choices.find((unit) => base.isAtLeast(unit!.factor)) ?? choices.at(-1);
  return fitting ? { value: inBase(q).over(fitting.factor), unit: fitting } : q;
}
