/** What is read from an inventory export: lots, and what is wrong with rows. */
import type { Expiry, MonthOnlyReading } from "./dates.ts";

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

export function problemAt(
  row: { start: number; end: number; line: number },
  kind: InventoryProblemKind,
  message: string,
  severity: "error" | "warning" = "error",
): InventoryProblem {
  return { kind, severity, message, start: row.start, end: row.end, line: row.line, related: [] };
}
