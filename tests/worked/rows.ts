/**
 * The published worked examples (tests/reference/worked-examples, each row with its source), and how a figure of the engine is laid
 * against a printed answer: exactly, or rounded as the row says its source rounded.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { isRefusal, measure, over, type Quantity, type Refusal, toUnit } from "../../language/quantities/quantity.ts";
import { findUnit, plainUnit, type Unit } from "../../language/quantities/unit.ts";

export interface Figure {
  value: string;
  unit: string;
}

export interface Row {
  id: string;
  kind: string;
  given: Record<string, Figure>;
  asked: string;
  answer: Figure;
  rounding: string | null;
  status: "ok" | "ok-after-rounding" | "intermediate-rounding" | "approximate" | "source-differs";
  verified: "read" | "memory";
  note?: string;
  source: { title: string; publisher: string; section: string };
}

const folder = join(import.meta.dirname, "../reference/worked-examples");

export const rows: readonly Row[] = readdirSync(folder)
  .filter((file) => file.endsWith(".json"))
  .sort()
  .flatMap((file) => (JSON.parse(readFileSync(join(folder, file), "utf8")) as { rows: Row[] }).rows);

export const byId: ReadonlyMap<string, Row> = new Map(rows.map((row) => [row.id, row]));

/** Units that a source writes and the language does not: things counted. */
const counted = new Set(["1", "vial", "ampoule", "unit", "mL/mL"]);

/** A printed figure as a quantity. `1` is a plain number; a bare `%` of a solution that says no kind stays a bare percent. */
export function quantity(figure: Figure): Quantity {
  if (counted.has(figure.unit)) return { value: Exact.of(figure.value), unit: plainUnit };
  const unit = findUnit(figure.unit).unit;
  if (!unit) throw new Error(`The language has no unit ${figure.unit}.`);
  return { value: Exact.of(figure.value), unit };
}

/** The given figure of this name. */
export function given(row: Row, name: string): Quantity {
  const figure = row.given[name];
  if (!figure) throw new Error(`${row.id} gives no ${name}.`);
  return quantity(figure);
}

/** The given figure as an author writes it in a recipe. */
export function text(row: Row, name: string): string {
  const figure = row.given[name];
  if (!figure) throw new Error(`${row.id} gives no ${name}.`);
  // Chemists print the zeros that were measured (1.250 L); in a recipe that figure can be read as 1,250, and is not.
  return `${figure.value.replace(/(\.\d*?)0+$/, "$1").replace(/\.$/, "")} ${figure.unit}`;
}

export function known<T extends object>(value: T | Refusal): T {
  if (isRefusal(value)) throw new Error(value.reason);
  return value;
}

export function inUnit(q: Quantity | Refusal, unit: string): Quantity {
  const found = known(q);
  if (unit === "%") return inPercent(found);
  const to = counted.has(unit) ? plainUnit : unit === "mol/kg" ? molality() : (findUnit(unit).unit ?? perUnit(unit));
  return known(toUnit(found, to));
}

/** The sources print a bare percent for a share without a unit and for w/v; the language keeps the two apart. */
function inPercent(q: Quantity): Quantity {
  if (q.unit.dimension === plainUnit.dimension) return over(q, measure("1 %"));
  return known(toUnit(q, findUnit("% w/v").unit!));
}

/** A chemist's kg is a mass; below the line the language's is the patient's. */
function molality(): Unit {
  return over(measure("1 mol"), measure("1 kg")).unit;
}

/** `1/mL`: things counted in a volume. */
function perUnit(unit: string): Unit {
  if (!unit.startsWith("1/")) throw new Error(`The language has no unit ${unit}.`);
  return over(quantity({ value: "1", unit: "1" }), measure(`1 ${unit.slice(2)}`)).unit;
}

/** The figure as its source would have printed it. */
export function asPrinted(row: Row, value: Exact): Exact {
  const printed = row.answer.value;
  if (row.status === "ok") return value;
  const digits = /(two|three|four) significant/.exec(row.rounding ?? "")?.[1];
  if (digits) return value.roundedToDigits({ two: 2, three: 3, four: 4 }[digits]!);
  if (/source prints 330/.test(row.rounding ?? "")) return value.roundedToDigits(2);
  return value.roundedTo(printed.split(".")[1]?.length ?? 0);
}

/** True when what the engine found is the printed answer, by the row's own rounding. */
export function agrees(row: Row, found: Quantity | Refusal): boolean {
  return asPrinted(row, inUnit(found, row.answer.unit).value).equals(Exact.of(row.answer.value));
}

export function expectPrinted(row: Row, found: Quantity | Refusal): void {
  const value = inUnit(found, row.answer.unit).value;
  const where = `${row.source.title}, ${row.source.publisher}, ${row.source.section}`;
  expect(
    agrees(row, found),
    `${row.id}: ${value.toText()} beside the printed ${row.answer.value} ${row.answer.unit} (${where})`,
  ).toBe(true);
}

export { measure };
