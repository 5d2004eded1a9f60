/**
 * Lots from an inventory export (CSV). Header row with columns `stock`, `lot`, `expires`, and where wanted `gtin` and
 * `barcode` (a scanned GS1 text that gives lot, expiry and pack number). Other columns are left alone.
 *
 * Invariants:
 * - A row is either among the lots or has a problem of severity `error`; none is dropped silently.
 * - A row that contradicts itself or another row is not used: nobody can say here which figure is right.
 * - Offsets are UTF-16 code units of the text as given, byte order mark and line ends included.
 */
import type { Expiry } from "./dates.ts";
import { type InventoryLot, type InventoryOptions, type InventoryReading, problemAt } from "./inventory-reading.ts";
import { readRow, shown } from "./inventory-row.ts";
import { type Column, columns, type Header, type Row, readTable } from "./inventory-table.ts";

/** Reads an export. `fileName` is used for naming only. */
export function readInventory(csvText: string, fileName: string, options: InventoryOptions = {}): InventoryReading {
  const reading: InventoryReading = { file: fileName, lots: [], problems: [] };
  const { rows, header } = readTable(csvText);
  const head = rows[0];
  if (!head) {
    const message = `${fileName} has no rows. Export it again with a first row of column names: stock, lot, expires.`;
    reading.problems.push({
      kind: "no-header",
      severity: "error",
      message,
      start: 0,
      end: csvText.length,
      line: 1,
      related: [],
    });
    return reading;
  }
  if (!headerUsable(head, header, reading)) return reading;
  for (const row of rows.slice(1)) {
    const lot = readRow(row, head, header, reading.problems, options);
    if (lot) reading.lots.push(lot);
  }
  setAsideRepeats(reading);
  if (rows.length === 1) {
    const message = `${fileName} has column names but no lots. Check the export.`;
    reading.problems.push(problemAt(head, "no-lots", message, "warning"));
  }
  reading.problems.sort((a, b) => a.start - b.start);
  return reading;
}

function headerUsable(head: Row, header: Header, { problems, file }: InventoryReading): boolean {
  if (head.quoteFault || head.lastLine > head.line) {
    const message = `The first row of ${file} does not end on its own line: a quotation mark in it has no partner. Correct it; nothing else of the file is read.`;
    problems.push(problemAt(head, "quotes", message));
    return false;
  }
  const needed: Column[] = header.has("barcode") ? ["stock"] : ["stock", "lot", "expires"];
  const missing = needed.filter((column) => !header.has(column));
  const found = head.cells.filter((cell) => cell !== "").join(", ");
  if (missing.length > 0) {
    const which = missing.length === 1 ? `no column ${missing[0]}` : `no columns ${missing.join(", ")}`;
    const message = `${file} has ${which}; its first row reads ${found}. Name the columns stock, lot and expires.`;
    problems.push(problemAt(head, "column-missing", message));
  }
  const names = head.cells.map((cell) => cell.toLowerCase());
  const twice = columns.filter((column) => names.indexOf(column) !== names.lastIndexOf(column));
  for (const column of twice) {
    const message = `${file} has more than one column ${column}. Keep the one that holds, and rename the other.`;
    problems.push(problemAt(head, "column-twice", message));
  }
  return missing.length === 0 && twice.length === 0;
}

/** A lot listed twice: the first row is kept where the expiry is the same, none where it differs. */
function setAsideRepeats(reading: InventoryReading): void {
  const groups = new Map<string, InventoryLot[]>();
  for (const lot of reading.lots) {
    const key = JSON.stringify([lot.stock, lot.lot]);
    const group = groups.get(key);
    if (group) group.push(lot);
    else groups.set(key, [lot]);
  }
  const dropped = new Set<InventoryLot>();
  for (const [first, ...others] of groups.values()) {
    if (!first || others.length === 0) continue;
    const ends = [...new Set([first, ...others].map((lot) => expiryShown(lot.expires)))];
    const differ = ends.length > 1;
    for (const lot of differ ? [first, ...others] : others) dropped.add(lot);
    const lot = `Lot ${first.lot} of ${first.stock}`;
    const advice = differ
      ? `Its rows give the expiries ${ends.slice(0, 5).join(" and ")}, so none of them is used; compare with the pack and keep the one that holds.`
      : "Remove one of them.";
    for (const other of others) {
      const message = `${lot} stands in line ${first.line} and again in line ${other.line}. ${advice}`;
      const related = [{ start: first.start, end: first.end, line: first.line }];
      reading.problems.push({ ...problemAt(other, "lot-twice", message, differ ? "error" : "warning"), related });
    }
    if (differ) {
      const elsewhere = others.map(({ start, end, line }) => ({ start, end, line }));
      const message = `${lot} stands in line ${first.line} and again in line ${others[0]?.line}. ${advice}`;
      reading.problems.push({ ...problemAt(first, "lot-twice", message), related: elsewhere });
    }
  }
  reading.lots = reading.lots.filter((lot) => !dropped.has(lot));
}

function expiryShown(expiry: Expiry): string {
  const { time } = expiry;
  return time ? `${shown(expiry)} ${time.hour}:${String(time.minute).padStart(2, "0")}` : shown(expiry);
}
