/** The rows of a `bands` declaration as figures, and a library in which the checks of bands show themselves. */
import { type OrderedDose, rowAt } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import type { Declaration } from "../../model/declaration.ts";
import type { MeasureSlot, Spot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { standardAnd } from "../example.ts";

export interface BandRow extends Spot {
  lowMeasure: MeasureSlot;
  highMeasure: MeasureSlot;
  givenMeasure: MeasureSlot;
  /** In base units of the one dimension that all rows share. */
  low: Exact;
  high: Exact;
}

/** Rows whose ends can be compared with those of the first, in order of writing. */
export function bandRows(declaration: Declaration): BandRow[] {
  if (declaration.kind !== "bands") return [];
  const rows: BandRow[] = [];
  for (const { slots, start, end } of declaration.facts.all("from")) {
    const low = slots.low.quantity;
    const high = slots.high.quantity;
    const first = rows[0]?.lowMeasure.quantity;
    if (!low || !high || low.unit.dimension !== high.unit.dimension) continue;
    if (first && first.unit.dimension !== low.unit.dimension) continue;
    const measures = { lowMeasure: slots.low, highMeasure: slots.high, givenMeasure: slots.given };
    rows.push({ ...measures, low: inBase(low), high: inBase(high), start, end });
  }
  return rows;
}

/** Rows that hold something, by their lower end. */
export function ascending(rows: readonly BandRow[]): BandRow[] {
  return rows.filter((r) => r.low.isBelow(r.high)).sort((a, b) => a.low.compare(b.low) || a.start - b.start);
}

/** `240 mg to below 264 mg`. */
export function bandText(row: BandRow): string {
  return `${row.lowMeasure.written} to below ${row.highMeasure.written}`;
}

const rows = [
  "  from  2 g below 3 g gives 2.5 g",
  "  from  3 g below 4 g gives 3.5 g",
  "  from  4 g below 5 g gives 4.5 g",
];

/** The standard library with bands; changes as in `example`. Silent as it stands. */
export function bandsExample(...changes: [string, string][]): string {
  let text = standardAnd(`bands magnesium-bands {\n  source  guide "dose bands"\n${rows.join("\n")}\n}\n`);
  for (const [from, to] of changes) {
    if (text.split(from).length !== 2) throw new Error(`an example must change just one place: ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}

/** Calculated, and no row of the table that is named gives a dose for it. */
export function fallsInNoBand({ calculated, given, toldInOrder, drug }: OrderedDose, { recipe, point }: Run): boolean {
  const { order } = recipe;
  const dose = rowAt(order?.all("dose"), { point, doses: [] });
  const isBanded = dose?.slots.bands !== undefined && order?.one("drug")?.slots.drug.name === drug;
  return isBanded && calculated !== undefined && given === undefined && toldInOrder !== true;
}
