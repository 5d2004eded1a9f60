/** Units as written, understood: what they measure, their size, and whether the spelling is safe. */
import { Dimension, type Exponents } from "./dimension.ts";
import { Exact } from "./exact.ts";
import { nearNames } from "./near-names.ts";
import { remembered } from "./remembered.ts";
import { belowTheLine, bySpelling, type Part, readPart, type UnitFault } from "./unit-part.ts";
import { type ActivityKind, percentRows, type UnitRow, unitRows } from "./unit-table.ts";

export type { UnitFault } from "./unit-part.ts";

export interface Unit {
  /** Canonical trade spelling: `mg/mL`, `mcg`, `units`, `% w/v`. Empty for a plain number. */
  spelling: string;
  /** Spelling after exactly one: `unit`, `day`. */
  singular?: string;
  /** UCUM code for exchange with other systems; empty where UCUM has none (gauge). */
  ucum: string;
  dimension: Dimension;
  /** Size in base units: g, mL, mmol, mEq, mOsm, unit, h, calendar day, calendar month, kg of body weight, m2, mm. */
  factor: Exact;
  activityKind?: ActivityKind;
  /** Only in published conversions (pound, ounce, grain, gallon …); a recipe is asked for a metric unit. */
  notInRecipes?: true;
  /** Below the line a day stands for 24 h and a week for 168 h, because a rate has no date. */
  ratesPerDay?: true;
  /** What it is composed of, for arithmetic between units. */
  parts: readonly UnitPart[];
}

export interface UnitPart {
  row: UnitRow;
  power: number;
}

export interface UnitFinding {
  unit: Unit | undefined;
  /** True when the text is a safe spelling as it stands. */
  exact: boolean;
  /** Known spellings near an unknown one, nearest first, at most three. */
  near: string[];
  /** True when no unit of this set is written so; false also where a fault says why the text is not read. */
  isUnknown?: true;
  /** The first of `faults`. */
  fault?: UnitFault;
  faults: UnitFault[];
}

/** kg in an osmolality is a kilogram of water, not of the patient. */
const kilogramOfWater = bySpelling.get("kg")!;

/** Enough for every unit of a large library; beyond it the memory starts anew, so that typing never fills it. */
const mostUnits = 2000;

const units = remembered(search, mostUnits);

/** Pure; the answer for a text is remembered and shared, so it must not be changed. */
export function findUnit(text: string): UnitFinding {
  return units(text);
}

function search(text: string): UnitFinding {
  const percent = percentUnit(text);
  if (percent) return { unit: percent, exact: true, near: [], faults: [] };
  const pieces = text.replace(/ per /g, "/").split("/");
  const numberInside = pieces.findIndex((piece, i) => i > 0 && /^\s*\d/.test(piece));
  if (numberInside > 0) return withNumberInside(text);
  const parts: Part[] = [];
  const faults: UnitFault[] = [];
  let start = 0;
  for (const [at, piece] of pieces.entries()) {
    const part = readPart(piece, at > 0);
    if (!part) return unknown(text);
    parts.push(part);
    if (part.fault) faults.push({ ...part.fault, start, end: start + piece.length });
    start += piece.length + 1;
  }
  const rows = parts.map((part) => part.row);
  const unit = rows.every((row) => row !== undefined) ? compose(rows) : undefined;
  // Known parts that make no unit in use together, such as ug/g.
  if (!unit && rows.every((row) => row !== undefined)) return { ...unknown(text), faults };
  const [fault] = faults;
  return { unit, exact: faults.length === 0, near: [], faults, ...(fault ? { fault } : {}) };
}

/** `% (w/v)` as pharmacopoeias print it, and `% m/V` with mass for weight. */
const percentOfMass = /^% ?(?:\((.\/.)\)|(.\/.))$/;

function percentUnit(text: string): Unit | undefined {
  const [, bracketed, bare] = percentOfMass.exec(text) ?? [];
  const kind = (bracketed ?? bare)?.toLowerCase().replaceAll("m", "w");
  const plain = kind === undefined ? text : `% ${kind}`;
  const row = percentRows.find((each) => each.spelling === plain || each.also?.includes(text));
  if (!row) return undefined;
  return {
    spelling: row.spelling,
    ucum: row.ucum,
    dimension: Dimension.of(row.exponents),
    factor: Exact.of(row.size),
    parts:
      row.spelling === "% w/v"
        ? [gramPart, perDecilitrePart]
        : [{ row: shareRow(row.spelling, row.exponents), power: 1 }],
  };
}

const gramPart: UnitPart = { row: bySpelling.get("g")!, power: 1 };
const perDecilitrePart: UnitPart = { row: bySpelling.get("dL")!, power: -1 };

function shareRow(spelling: string, exponents: Exponents): UnitRow {
  const axis = spelling === "%" ? "percent" : exponents["volume/volume"] ? "volume/volume" : "mass/mass";
  return { spelling, ucum: "", axis, size: "0.01" };
}

/** `mg/5 mL`, `units/10 units`, `mL/24h`: a figure below the line is never read. */
function withNumberInside(text: string): UnitFinding {
  const slash = text.indexOf("/");
  const above = text.slice(0, slash);
  const below = text.slice(slash + 1).trim();
  const belowAxis = bySpelling.get(below.replace(/^[\d.,]+\s*/, ""))?.axis;
  const detail = "A slash before a figure has been read as the figure 1.";
  if (above === "") {
    const fault: UnitFault = { rule: "slash-strength-ui", start: 0, end: text.length, detail };
    return { unit: undefined, exact: false, near: [], fault, faults: [fault] };
  }
  const twoDoses = belowAxis !== undefined && bySpelling.get(above)?.axis === belowAxis;
  const between = twoDoses ? "and" : belowAxis === "time" ? "per" : "in";
  const replacement = `${above} ${between} ${below.replace(/^([\d.,]+)(?=[^\d.,\s])/, "$1 ")}`;
  const rule = twoDoses ? "slash-per" : "slash-strength-ui";
  const fault: UnitFault = { rule, start: 0, end: text.length, replacement, detail };
  return { unit: undefined, exact: false, near: [], fault, faults: [fault] };
}

const notAbove: ReadonlySet<string> = new Set(["time", "area"]);

/** Undefined when the parts do not make a unit that is in use. */
function compose(rows: readonly UnitRow[]): Unit | undefined {
  const [first, ...rest] = rows;
  if (!first || rest.length > 2) return undefined;
  if (rest.length > 0 && (rows.some((row) => row.alone) || notAbove.has(first.axis))) return undefined;
  // mL/mL would cancel to a plain number; a share is written % v/v or % w/w.
  if (new Set(rows.map((row) => row.axis)).size < rows.length) return undefined;
  const below =
    first.axis === "osmoles" ? rest.map((row) => (row.axis === "bodyWeight" ? kilogramOfWater : row)) : rest;
  return unitOf([{ row: first, power: 1 }, ...below.map((row) => ({ row, power: -1 }))]);
}

/** The unit made of these parts, spelled above the line first. Pure; the answer is remembered and shared, so it must not be changed. */
export function unitOf(parts: readonly UnitPart[]): Unit {
  let key = "";
  for (const { row, power } of parts) key += `${numberOf(row)} ${power} `;
  const known = made.get(key);
  if (known) return known;
  const unit = makeUnit(parts);
  if (made.size >= mostUnits) made.clear();
  made.set(key, unit);
  return unit;
}

const made = new Map<string, Unit>();
const rowNumbers = new WeakMap<UnitRow, number>();
let rowsNumbered = 0;

/** Rows are told apart as objects: two may be spelled alike. */
function numberOf(row: UnitRow): number {
  const known = rowNumbers.get(row);
  if (known !== undefined) return known;
  rowNumbers.set(row, ++rowsNumbered);
  return rowsNumbered;
}

function makeUnit(parts: readonly UnitPart[]): Unit {
  let factor = Exact.one;
  let dimension = Dimension.of({});
  for (const { row, power } of parts) {
    const size = sizeOf(row);
    for (let i = 0; i < Math.abs(power); i += 1) factor = power > 0 ? factor.times(size) : factor.over(size);
    dimension = dimension.times(Dimension.of({ [row.axis]: power }));
  }
  const [above, second] = parts.filter(({ power }) => power > 0);
  // Of one millilitre there is 1 unit/mL, as there is 1 unit.
  const one = above?.power === 1 && !second ? above.row.singular : undefined;
  const kind = parts.find(({ row }) => row.activityKind)?.row.activityKind;
  return {
    spelling: spell(parts, (row) => row.spelling),
    ucum: spell(parts, (row) => row.ucum),
    dimension,
    factor,
    parts,
    ...(one ? { singular: spell(parts, (row) => (row === above?.row ? one : row.spelling)) } : {}),
    ...(kind ? { activityKind: kind } : {}),
    ...(parts.some(({ row }) => row.notInRecipes) ? { notInRecipes: true as const } : {}),
    ...(parts.some(({ row, power }) => power < 0 && belowTheLine.get(row.spelling) === row && row.axis === "time")
      ? { ratesPerDay: true as const }
      : {}),
  };
}

/** Size of a row in base units of its axis. */
export function sizeOf(row: UnitRow): Exact {
  const [top = "1", bottom = "1"] = row.size.split("/");
  return Exact.of(top).over(Exact.of(bottom));
}

function spell(parts: readonly UnitPart[], word: (row: UnitRow) => string): string {
  const named = ({ row, power }: UnitPart) => (Math.abs(power) > 1 ? `${word(row)}${Math.abs(power)}` : word(row));
  const above = parts.filter((part) => part.power > 0).map(named);
  const below = parts.filter((part) => part.power < 0).map((part) => `/${named(part)}`);
  return (above.join(".") || (below.length > 0 ? "1" : "")) + below.join("");
}

function unknown(text: string): UnitFinding {
  const offers =
    text === ""
      ? []
      : [...unitRows.filter((row) => !row.notInRecipes).map((row) => row.spelling), "mg/mL", "mL/h", "% w/v"];
  const near = plainSpelling(text) ?? nearNames(text, offers).filter((name) => isLikely(text, name));
  return { unit: undefined, exact: false, near, isUnknown: true, faults: [] };
}

/** One letter is a slip for nothing: an offer of g for a sign that nobody knows would be a dose a thousand times too large. */
function isLikely(text: string, name: string): boolean {
  return text.length > 1 || text.toLowerCase() === name.toLowerCase();
}

/** Written in letters that the language does not know, as an exponent, with a product below the line, or by the hundred millilitres: the same unit in plain letters. */
function plainSpelling(text: string): string[] | undefined {
  const perDecilitre = /^(mcg|mg|g)%$/.exec(text);
  if (perDecilitre) return [`${perDecilitre[1]}/dL`];
  const plain = text
    .normalize("NFKC")
    .replace(/[⁄∕]/g, "/")
    .replace(/[.·⋅*]?([A-Za-z]+)\^?[-−]1(?![0-9])/g, "/$1")
    // All that is multiplied below the line stands below it: mg/kg·h and mg/(kg·h) are mg/kg/h.
    .replace(/\/.*$/, (below) => below.replace(/^\/\((.*)\)$/, "/$1").replace(/[.·⋅*×](?=[A-Za-z])/g, "/"));
  if (plain === text) return undefined;
  const { unit } = findUnit(plain);
  return unit && !unit.notInRecipes ? [unit.spelling] : undefined;
}

/** A number of things, without a unit. */
export const plainUnit: Unit = { spelling: "", ucum: "1", dimension: Dimension.of({}), factor: Exact.one, parts: [] };
