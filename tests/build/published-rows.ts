/** The published tables that the checks are held against (tests/reference), by `table row`. */
import notation from "../reference/measuring/error-prone-notation.json";
import records from "../reference/practice/record-elements.json";
import technique from "../reference/practice/technique-rules.json";

export interface PublishedRow {
  id: string;
  verified: string;
  source: { title: string; publisher: string };
  /** What the row says: a rule, an element of a record, or examples of a bad notation. */
  rule?: string;
  element?: string;
  bad?: string[];
  /** The same in a safe form. */
  good?: string[];
}

export const tables: readonly { name: string; rows: readonly PublishedRow[] }[] = [
  { name: "technique-rules", rows: technique.rows as PublishedRow[] },
  { name: "record-elements", rows: records.rows as PublishedRow[] },
  { name: "error-prone-notation", rows: notation.rows as PublishedRow[] },
];

export const published: ReadonlyMap<string, PublishedRow> = new Map(
  tables.flatMap((table) => table.rows.map((row) => [`${table.name} ${row.id}`, row] as const)),
);

export const keys: readonly string[] = [...published.keys()];

/** The title as far as it names the publication: brackets, and what a copy adds behind a comma, may be shortened in a check. */
export function sourcesOf(row: PublishedRow): string[] {
  return [row.source.title.replace(/ \(.*$/, "").replace(/,.*$/, "")];
}

export function saying(row: PublishedRow): string {
  return row.rule ?? row.element ?? (row.bad ?? []).map((each) => `"${each}"`).join(", ");
}
