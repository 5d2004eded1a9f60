/**
 * Tables of beyond-use limits by national standards: ceilings, of which a site names one (`beyond-use EDITION category …`).
 * Nothing here overrules the site: an edition it does not name is never used. Each row says whether its figure was seen in the
 * text it names, or is recalled; a recalled figure is shown as such and carries no error, unless a text that was read prints the
 * same figure.
 */
import type { Quantity } from "../quantities/quantity.ts";
import { measure } from "../quantities/quantity.ts";

/** Places that the standards know; `any` where a limit holds wherever it is kept. */
export type TablePlace = "controlled-room-temperature" | "refrigerator" | "freezer";
/** `recalled`: the text that the source names was not seen. */
export type Footing = "read" | "recalled";

export interface PolicyRow {
  /** Its id in the published table (tests/reference/practice/beyond-use-dates.json). */
  id: string;
  /** `1`, `low-risk`, `immediate-use`; undefined where the standard knows no categories. */
  category: string | undefined;
  process: "any" | "aseptic" | "terminally-sterilised";
  /** Whether each batch passes a sterility test before it is used. */
  tested: "any" | boolean;
  components: "any" | "sterile" | "nonsterile";
  place: TablePlace | "any";
  /** Undefined: no storage is allowed there. */
  limit: Quantity | undefined;
  footing: Footing;
  source: string;
  /** A text that was read and prints the same figure. */
  restatedBy?: string;
  /** What else must hold, in words. */
  onlyIf?: string;
  /** What a run can be counted against: packages that are opened, entries into one of them, different products that go in. */
  most?: { packages?: number; entries?: number; products?: number };
  /** What the limit speaks of: the start of giving where nothing is said. */
  speaksOf?: "end of giving";
}

/** How long an opened product may be used. */
export interface InUseRow {
  id: string;
  container: "ampoule" | "single" | "multiple" | "bulk";
  limit: Quantity;
  footing: Footing;
  source: string;
  restatedBy?: string;
  onlyIf?: string;
}

export interface PolicyEdition {
  /** As a site names it. */
  name: string;
  /** As the standard calls itself. */
  title: string;
  /** Categories that the site or the preparation must choose from; empty where there are none. */
  categories: readonly string[];
  rows: readonly PolicyRow[];
  inUse: readonly InUseRow[];
}

/** How a preparation is made, as far as a table asks. */
export interface Making {
  category: string | undefined;
  process: "aseptic" | "terminally-sterilised";
  tested: boolean;
  components: "sterile" | "nonsterile";
}

/** Made in an aseptic process from sterile products and used without a sterility test: what holds where nothing else is said. */
export const usualMaking: Omit<Making, "category"> = { process: "aseptic", tested: false, components: "sterile" };

/**
 * A place as authors name it, to the tables' own. `room-temperature` is taken as the controlled one; that bands of degrees differ
 * between countries (20 to 25 C or 15 to 30 C) is the site's to know. Source of the bands: usp659 rows of the same table.
 */
export function tablePlace(name: string): TablePlace | undefined {
  return Object.hasOwn(places, name) ? places[name] : undefined;
}

const places: Readonly<Record<string, TablePlace>> = {
  "room-temperature": "controlled-room-temperature",
  "controlled-room-temperature": "controlled-room-temperature",
  refrigerator: "refrigerator",
  fridge: "refrigerator",
  cold: "refrigerator",
  freezer: "freezer",
  frozen: "freezer",
};

/** Every name of a place that the tables know. */
export const tablePlaceNames: readonly string[] = Object.keys(places);

/** The row that holds; undefined where the table has none for such a preparation or place. */
export function policyRow(edition: PolicyEdition, making: Making, place: string): PolicyRow | undefined {
  const at = tablePlace(place);
  return edition.rows.find(
    (row) =>
      row.speaksOf === undefined &&
      (row.category === undefined || row.category === making.category) &&
      (row.process === "any" || row.process === making.process) &&
      (row.tested === "any" || row.tested === making.tested) &&
      (row.components === "any" || row.components === making.components) &&
      (row.place === "any" || row.place === at),
  );
}

/** Whether an error may rest on it: the figure itself was seen in print. */
export function isSeen(row: { footing: Footing; restatedBy?: string }): boolean {
  return row.footing === "read" || row.restatedBy !== undefined;
}

/** `Wis. Phar 15.37 (read)`; a recalled row says so, and who prints the same. */
export function policySource(row: { footing: Footing; source: string; restatedBy?: string }): string {
  if (row.footing === "read") return row.source;
  return row.restatedBy
    ? `${row.source} (recalled; the same figure was read in ${row.restatedBy})`
    : `${row.source} (from memory: look it up)`;
}

/** `4 h`, `10 days`. */
export function limit(text: string): Quantity {
  return measure(text);
}
