/** One row of an inventory export: its lot, or why the row is not used. */
import { type CalendarDate, compareDates, dateText, type Expiry, isDateFault, parseExpiry } from "./dates.ts";
import { readElementString } from "./gs1.ts";
import { isGtinFault, readGtin } from "./gtin.ts";
import {
  type InventoryLot,
  type InventoryOptions,
  type InventoryProblem,
  type InventoryProblemKind,
  problemAt,
} from "./inventory-reading.ts";
import type { Column, Header, Row } from "./inventory-table.ts";

/** A row's lot, or undefined with an error among the problems. */
export function readRow(
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

export function shown({ precision, lastDay }: { precision: "day" | "month"; lastDay: CalendarDate }): string {
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
