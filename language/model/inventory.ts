/**
 * Lots from an inventory export (CSV). Header row with columns `stock`, `lot`, `expires`, and where wanted `gtin` and
 * `barcode` (a scanned GS1 text that gives lot, expiry and pack number). Other columns are left alone.
 *
 * Invariants:
 * - A row is either among the lots or has a problem of severity `error`; none is dropped silently.
 * - A row that contradicts itself or another row is not used: nobody can say here which figure is right.
 * - Offsets are UTF-16 code units of the text as given, byte order mark and line ends included.
 */
import Papa from "papaparse";
import {
  type CalendarDate,
  compareDates,
  dateText,
  type Expiry,
  isDateFault,
  type MonthOnlyReading,
  parseExpiry,
} from "./dates.ts";
import { readElementString } from "./gs1.ts";
import { isGtinFault, readGtin } from "./gtin.ts";

/** One row that names a lot. `start` and `end` hold its line without the line end; `line` counts from 1. */
export interface InventoryLot {
  stock: string;
  /** As text: leading zeros and case are kept. */
  lot: string;
  expires: Expiry;
  /** 14 digits. */
  gtin?: string;
  start: number;
  end: number;
  line: number;
}

export type InventoryProblemKind =
  | "no-header"
  | "column-missing"
  | "column-twice"
  | "no-lots"
  | "quotes"
  | "cell-over-lines"
  | "cell-count"
  | "cell-empty"
  | "lot-not-text"
  | "expiry-not-read"
  | "gtin-not-read"
  | "barcode-not-read"
  | "barcode-remark"
  | "cells-disagree"
  | "lot-twice";

export interface InventoryProblem {
  kind: InventoryProblemKind;
  /** `error`: the row, or the file, is not used. */
  severity: "error" | "warning";
  message: string;
  start: number;
  end: number;
  line: number;
  /** The other rows it speaks of. */
  related: { start: number; end: number; line: number }[];
}

export interface InventoryReading {
  file: string;
  lots: InventoryLot[];
  problems: InventoryProblem[];
}

export interface InventoryOptions {
  /** Four digits. Needed for the two-digit years of barcodes; without it a barcode is refused. */
  currentYear?: number;
  monthOnly?: MonthOnlyReading;
}

interface Row {
  cells: string[];
  start: number;
  end: number;
  line: number;
  lastLine: number;
  quoteFault: boolean;
}

const columns = ["stock", "lot", "expires", "gtin", "barcode"] as const;
type Column = (typeof columns)[number];
type Header = Map<Column, number>;

interface CsvStep {
  /** The cells of one row. */
  data: string[];
  errors: { type: string }[];
  meta: { cursor: number };
}

interface CsvParser {
  abort(): void;
}

const parseCsv: (
  text: string,
  config: { delimiter: string; newline: string; step: (row: CsvStep, parser: CsvParser) => void },
) => void = Papa.parse as never;

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

/** The rows cut by whichever of comma, semicolon and tab finds most of the column names in the first row. */
function readTable(csvText: string): { rows: Row[]; header: Header } {
  let best: { delimiter: string; header: Header } | undefined;
  for (const delimiter of [",", ";", "\t"]) {
    const header = headerOf(rowsOf(csvText, delimiter, 1)[0]);
    if (!best || header.size > best.header.size) best = { delimiter, header };
  }
  return { rows: rowsOf(csvText, best!.delimiter), header: best!.header };
}

/**
 * Rows with their exact places; empty lines are left out. Line ends are brought to one sign each without changing any
 * length (the library knows one kind a file): a lone CR becomes LF, and the CR of CRLF is trimmed off the last cell.
 *
 * @param most ends after so many rows; the first tells by what the cells are parted
 */
function rowsOf(csvText: string, delimiter: string, most = Number.POSITIVE_INFINITY): Row[] {
  const from = csvText.startsWith("\uFEFF") ? 1 : 0;
  const text = csvText.slice(from).replaceAll(/\r(?!\n)/g, "\n");
  const rows: Row[] = [];
  let start = 0;
  let line = 1;
  const step = ({ data, errors, meta }: CsvStep, parser: CsvParser) => {
    const raw = text.slice(start, meta.cursor);
    const end = start + raw.replace(/\r?\n$/, "").length;
    const lastLine = line + text.slice(start, end).split("\n").length - 1;
    const cells = data.map((cell) => cell.trim());
    const quoteFault = errors.some((e) => e.type === "Quotes");
    if (cells.some((cell) => cell !== ""))
      rows.push({ cells, start: start + from, end: end + from, line, lastLine, quoteFault });
    line = lastLine + 1;
    start = meta.cursor;
    if (rows.length >= most) parser.abort();
  };
  // The library closes a quoted last cell only before a line end or the very end, so the text always ends with a line end.
  if (text !== "") parseCsv(/\n$/.test(text) ? text : `${text}\n`, { delimiter, newline: "\n", step });
  return rows;
}

function headerOf(row: Row | undefined): Header {
  const header: Header = new Map();
  for (const column of columns) {
    const at = row?.cells.findIndex((cell) => cell.toLowerCase() === column) ?? -1;
    if (at >= 0) header.set(column, at);
  }
  return header;
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

function problemAt(
  row: { start: number; end: number; line: number },
  kind: InventoryProblemKind,
  message: string,
  severity: "error" | "warning" = "error",
): InventoryProblem {
  return { kind, severity, message, start: row.start, end: row.end, line: row.line, related: [] };
}

/** A row's lot, or undefined with an error among the problems. */
function readRow(
  row: Row,
  head: Row,
  header: Header,
  problems: InventoryProblem[],
  options: InventoryOptions,
): InventoryLot | undefined {
  const stop = (kind: InventoryProblemKind, message: string) => {
    problems.push(problemAt(row, kind, message));
    return undefined;
  };
  const shape = shapeProblem(row, head, header);
  if (shape) problems.push(shape);
  if (shape?.severity === "error") return undefined;
  const cell = (column: Column) => row.cells[header.get(column) ?? -1] ?? "";
  const scanned = cell("barcode") === "" ? {} : readBarcode(row, cell("barcode"), problems, options);
  if (!scanned) return undefined;
  const lot = settled(cell("lot"), scanned.lot);
  if (!lot.agree)
    return stop(
      "cells-disagree",
      `The lot reads ${cell("lot")} in its column and ${scanned.lot} in the barcode. ${compare}`,
    );
  const odd = oddLot(lot.value ?? "");
  if (odd) return stop("lot-not-text", odd);
  const expires = readExpiry(row, cell("expires"), scanned.expires, problems, options);
  const gtin = readPackNumber(row, cell("gtin"), scanned.gtin, problems);
  const missing = [cell("stock") ? "" : "stock", lot.value ? "" : "lot", expires === "none" ? "expires" : ""].filter(
    Boolean,
  );
  if (missing.length > 0)
    return stop("cell-empty", `Line ${row.line} gives no ${missing.join(" and no ")}. Fill it in, or remove the row.`);
  if (!expires || expires === "none" || gtin === undefined) return undefined;
  const place = { start: row.start, end: row.end, line: row.line };
  return { stock: cell("stock"), lot: lot.value!, expires, ...(gtin === "none" ? {} : { gtin }), ...place };
}

const compare = "Compare with the pack and correct the row.";

/** The value of a cell and of a barcode that may both be there; they agree only where they are the same text. */
function settled(cell: string, scanned: string | undefined): { agree: boolean; value: string | undefined } {
  if (cell === "") return { agree: true, value: scanned };
  return { agree: scanned === undefined || scanned === cell, value: cell };
}

function shapeProblem(row: Row, head: Row, header: Header): InventoryProblem | undefined {
  const lines = row.lastLine > row.line ? `lines ${row.line} to ${row.lastLine}` : `line ${row.line}`;
  if (row.quoteFault) {
    return problemAt(
      row,
      "quotes",
      `A quotation mark in ${lines} has no partner where a cell ends, so that no cell from there can be told from the next. Close it, or write it twice.`,
    );
  }
  const surplus = row.cells.slice(head.cells.length).filter((cell) => cell !== "").length;
  if (row.cells.length < head.cells.length || surplus > 0) {
    const message = `Line ${row.line} has ${row.cells.length} cells, the first row ${head.cells.length}; figures may stand in the wrong column. Put a text that holds the separator in quotation marks.`;
    return problemAt(row, "cell-count", message);
  }
  if (row.lastLine === row.line) return undefined;
  const used = [...header.values()].some((at) => row.cells[at]?.includes("\n"));
  const message = `A cell in quotation marks makes ${lines} one row. ${used ? "Keep each lot on one line." : "If they are several lots, correct the quotation marks."}`;
  return problemAt(row, "cell-over-lines", message, used ? "error" : "warning");
}

/** Why a lot cannot be what stands on the pack. */
function oddLot(lot: string): string | undefined {
  if (/^\d[.,]\d+E[+]\d+$/i.test(lot)) {
    return `The lot ${lot} was turned into a number by a spreadsheet and its digits are lost. Export the column as text.`;
  }
  if (lot.startsWith("=")) return `The lot ${lot} is a spreadsheet formula. Export the column as text.`;
  if (/[\p{Cc}\p{Cf}]/u.test(lot))
    return `The lot ${lot.replaceAll(/[\p{Cc}\p{Cf}]/gu, "?")} holds an invisible sign, here shown as ?. Type the lot again.`;
  return undefined;
}

interface Scanned {
  lot?: string;
  expires?: Expiry;
  gtin?: string;
}

function readBarcode(
  row: Row,
  text: string,
  problems: InventoryProblem[],
  options: InventoryOptions,
): Scanned | undefined {
  if (options.currentYear === undefined) {
    problems.push(
      problemAt(
        row,
        "barcode-not-read",
        `The barcode in line ${row.line} has two-digit years, and no current year is given to read them by. Give lot and expires in columns.`,
      ),
    );
    return undefined;
  }
  const monthOnly = options.monthOnly ?? "last-day";
  const { faults, notices, lot, expiry, gtin } = readElementString(text, {
    currentYear: options.currentYear,
    monthOnly,
  });
  for (const fault of faults) problems.push(problemAt(row, "barcode-not-read", fault.message));
  if (faults.length > 0) return undefined;
  for (const notice of notices) {
    // A lot or expiry that the barcode lacks may stand in its column; if not, the row says so itself.
    if (notice.kind === "no-lot" || notice.kind === "no-expiry") continue;
    problems.push(problemAt(row, "barcode-remark", notice.message, "warning"));
  }
  return {
    ...(lot === undefined ? {} : { lot }),
    ...(expiry === undefined ? {} : { expires: expiry }),
    ...(gtin === undefined ? {} : { gtin: gtin.gtin14 }),
  };
}

/** The expiry, `none` where neither cell nor barcode gives one, undefined where a problem was said. */
function readExpiry(
  row: Row,
  cell: string,
  scanned: Expiry | undefined,
  problems: InventoryProblem[],
  options: InventoryOptions,
): Expiry | "none" | undefined {
  if (cell === "") return scanned ?? "none";
  const written = parseExpiry(cell, options.monthOnly);
  if (isDateFault(written)) {
    problems.push(problemAt(row, "expiry-not-read", `The expiry in line ${row.line}: ${written.message}`));
    return undefined;
  }
  if (!scanned) return written;
  if (sameExpiry(written, scanned)) return scanned.precision === "day" ? scanned : written;
  const message = `The expiry reads ${cell} in its column and ${shown(scanned)} in the barcode. ${compare}`;
  problems.push(problemAt(row, "cells-disagree", message));
  return undefined;
}

/** A month and a day in it agree; two days must be the same. */
function sameExpiry(a: Expiry, b: Expiry): boolean {
  if (a.precision === "day" && b.precision === "day") return compareDates(a.lastDay, b.lastDay) === 0;
  return a.lastDay.year === b.lastDay.year && a.lastDay.month === b.lastDay.month;
}

function shown({ precision, lastDay }: { precision: "day" | "month"; lastDay: CalendarDate }): string {
  return precision === "day" ? dateText(lastDay) : dateText(lastDay).slice(0, 7);
}

/** 14 digits, `none` where there is no number, undefined where a problem was said. */
function readPackNumber(
  row: Row,
  cell: string,
  scanned: string | undefined,
  problems: InventoryProblem[],
): string | "none" | undefined {
  if (cell === "") return scanned ?? "none";
  const written = readGtin(cell);
  if (isGtinFault(written)) {
    problems.push(problemAt(row, "gtin-not-read", written.message));
    return undefined;
  }
  if (scanned === undefined || scanned === written.gtin14) return written.gtin14;
  const message = `The pack number reads ${cell} in its column and ${scanned} in the barcode. ${compare}`;
  problems.push(problemAt(row, "cells-disagree", message));
  return undefined;
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
