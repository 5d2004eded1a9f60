/** Sheets of the sample libraries, for the tests of this folder. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { Library } from "../../language/library.ts";
import { isSheetRefusal, type Sheet, type SheetRequest } from "../../language/sheet/sheet.ts";
import { sheetOf } from "../../language/sheet/sheet-data.ts";

export const samples = join(import.meta.dirname, "../../samples");

function misceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? misceFiles(path) : path.endsWith(".misce") ? [path] : [];
  });
}

export interface Texts {
  [file: string]: string;
}

export function textsOf(folder: string): Texts {
  const paths = misceFiles(join(samples, folder));
  return Object.fromEntries(paths.map((path) => [relative(samples, path), readFileSync(path, "utf8")]));
}

export function libraryOf(texts: Texts, asOf = "2026-11-25"): Library {
  const library = new Library({ asOf });
  for (const [file, text] of Object.entries(texts)) library.open(file, text);
  return library;
}

export function requestFor(recipe: string, more: Partial<SheetRequest> = {}): SheetRequest {
  return {
    recipe,
    inputs: new Map(),
    bags: undefined,
    at: "2026-11-25T09:30",
    timeZone: undefined,
    lots: new Map(),
    batch: false,
    number: undefined,
    gtin: undefined,
    fingerprint: undefined,
    revision: undefined,
    ...more,
  };
}

/** @throws Error with the refusal, so that a test shows it. */
export function sheetFrom(library: Library, recipe: string, more: Partial<SheetRequest> = {}): Sheet {
  const sheet = sheetOf(library, requestFor(recipe, more));
  if (isSheetRefusal(sheet)) throw new Error(sheet.refusal);
  return sheet;
}

export function refusalFrom(library: Library, recipe: string, more: Partial<SheetRequest> = {}): string {
  const sheet = sheetOf(library, requestFor(recipe, more));
  return isSheetRefusal(sheet) ? sheet.refusal : "(a sheet was made)";
}

/** Words of an HTML text as a reader sees them, without style and marks. */
export function readable(html: string): string {
  return html
    .replace(/<style>[\s\S]*?<\/style>/g, " ")
    .replace(/<svg[\s\S]*?<\/svg>/g, " ")
    .replace(/<br>|<\/(?:p|li|td|th|dd|dt|h\d|div|span)>/g, "\n")
    .replace(/<[^>]*>/g, "")
    .replace(/&nbsp;|\u00a0/g, " ")
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, "&");
}

/** Figures of a text: `4,000`, `0.9`, `2026-11-26`, `09:30`. */
export function numbersIn(text: string): string[] {
  return text.match(/\d(?:[\d.,:-]*\d)?/g) ?? [];
}
