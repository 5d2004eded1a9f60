/** The published tables that the checks are held against (tests/reference), by `table row`. */
import notation from "../reference/measuring/error-prone-notation.json";
import beyondUse from "../reference/practice/beyond-use-dates.json";
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
  /** Of a table of several kinds: a limit, a rule, a band of temperature with its name and ends. */
  kind?: string;
  name?: string;
  min?: { value: string } | null;
  max?: { value: string } | null;
  /** The same in a safe form. */
  good?: string[];
}

function isNoLimit({ kind }: PublishedRow): boolean {
  return kind === "rule" || kind === "temperature-band";
}

export const tables: readonly { name: string; rows: readonly PublishedRow[] }[] = [
  { name: "technique-rules", rows: technique.rows as PublishedRow[] },
  { name: "record-elements", rows: records.rows as PublishedRow[] },
  // Its limits are held against the editions one by one: tests/reference/beyond-use-rows.test.ts.
  { name: "beyond-use-dates", rows: (beyondUse.rows as unknown as PublishedRow[]).filter(isNoLimit) },
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
  if (row.kind === "temperature-band")
    return `${row.name}: ${[row.min && `from ${row.min.value} °C`, row.max && `up to ${row.max.value} °C`].filter(Boolean).join(" ")}`;
  return row.rule ?? row.element ?? (row.bad ?? []).map((each) => `"${each}"`).join(", ");
}
