/** The data of a sheet as JSON: figures as decimal text with their unit, so that no reader has to take them out of a sentence. */
import { safetyNotice } from "../../shared/report.ts";
import { figureOf } from "../answers/explain.ts";
import type { Quantity } from "../quantities/quantity.ts";
import type { Sheet } from "./sheet.ts";

export const sheetSchema = "misce-sheet/1";

/** Described by shared/sheet.schema.json. What is not known is null, never left out. */
export function sheetJson(sheet: Sheet): string {
  const { safety: _, ...data } = sheet;
  const labels = data.labels.map(({ safety: __, ...label }) => label);
  const json = { schema: sheetSchema, ...data, labels, notice: safetyNotice };
  return `${JSON.stringify(plain(json), null, 2)}\n`;
}

function plain(value: unknown): unknown {
  if (value === undefined) return null;
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(plain);
  if (isQuantity(value)) return figureOf(value);
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plain(inner)]));
}

function isQuantity(value: object): value is Quantity {
  return "value" in value && "unit" in value && typeof value.unit === "object";
}
