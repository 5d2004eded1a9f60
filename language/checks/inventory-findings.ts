/**
 * What is said of an inventory export (CSV) itself: rows that cannot be used, and rows of a stock that the library does not
 * declare. An export is no library text, so these two stand outside the registry; the site re-grades them as any other finding.
 */
import type { Finding, Severity } from "../../shared/finding.ts";
import type { InventoryLot, InventoryReading } from "../model/inventory-reading.ts";
import { nearNames } from "../model/near.ts";
import type { Policy } from "../model/policy.ts";
import { didYouMean } from "./showing.ts";

interface InventoryCheck {
  name: string;
  title: string;
  why: string;
  source: string;
}

export const inventoryRowNotUsed: InventoryCheck = {
  name: "inventory-row-not-used",
  title: "A row of an inventory export that is not used, or with a remark",
  why: "A lot that is not read is not judged: it may be expired and nobody is told.",
  source: "common practice",
};

export const inventoryStockUnknown: InventoryCheck = {
  name: "inventory-stock-unknown",
  title: "A row of an inventory export that names a stock the library does not declare",
  why: "Its lot is judged for no preparation, and the stock that was meant may seem to have none.",
  source: "common practice",
};

export interface Stocks {
  has(name: string): boolean;
  names(): readonly string[];
}

/** In order of place. */
export function inventoryFindings(reading: InventoryReading, text: string, stocks: Stocks, policy: Policy): Finding[] {
  const { file } = reading;
  const findings: Finding[] = [];
  const add = (
    check: InventoryCheck,
    severity: Severity,
    at: { start: number; end: number },
    message: string,
    related: Finding["related"] = [],
  ) => {
    const level = policy.severities.get(check.name) ?? severity;
    if (level === "off") return;
    const span = { file, start: at.start, end: at.end };
    const anchor = text.slice(at.start, at.end).trim().replace(/\s+/g, " ").slice(0, 200);
    const { name, why, source } = check;
    findings.push({
      name,
      family: "stock",
      severity: level,
      span,
      message,
      related,
      why,
      source,
      fixes: [],
      subject: `inventory ${file}`,
      anchor,
    });
  };
  for (const problem of reading.problems) {
    const related = problem.related.map(({ start, end, line }) => ({
      span: { file, start, end },
      message: `line ${line}`,
    }));
    add(inventoryRowNotUsed, problem.severity, problem, problem.message, related);
  }
  const unknown = unknownStocks(reading, stocks);
  const names = unknown.size > 0 ? stocks.names() : [];
  for (const [stock, { first, rows }] of unknown) {
    const more = rows > 1 ? `, as do ${rows - 1} further ${rows === 2 ? "row" : "rows"}` : "";
    const near = didYouMean(nearNames(stock, names));
    add(
      inventoryStockUnknown,
      "warning",
      first,
      `Line ${first.line} names the stock \`${stock}\`${more}; the library declares none of this name.${near} Correct the name in the export, or declare the stock.`,
    );
  }
  return findings.sort((a, b) => a.span.start - b.span.start || (a.name < b.name ? -1 : 1));
}

/** In order of their first rows. An export from elsewhere may name tens of thousands, so each row is looked at once. */
function unknownStocks({ lots }: InventoryReading, stocks: Stocks): Map<string, { first: InventoryLot; rows: number }> {
  const unknown = new Map<string, { first: InventoryLot; rows: number }>();
  const known = new Set<string>();
  for (const row of lots) {
    const before = unknown.get(row.stock);
    if (before) before.rows++;
    else if (known.has(row.stock) || stocks.has(row.stock)) known.add(row.stock);
    else unknown.set(row.stock, { first: row, rows: 1 });
  }
  return unknown;
}
