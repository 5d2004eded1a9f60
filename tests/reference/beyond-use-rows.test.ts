/**
 * Every row of the published table of beyond-use limits (tests/reference/practice/beyond-use-dates.json, each row with its source)
 * stands in the edition that bears it, with the same figure and the same footing; and a whole library that names the edition finds
 * nothing at the limit, and finds it an hour beyond.
 */
import { describe, expect, it } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { policyEdition, policyEditions } from "../../language/model/beyond-use-policies.ts";
import { isSeen } from "../../language/model/beyond-use-policy.ts";
import { inBase, measure } from "../../language/quantities/quantity.ts";
import table from "./practice/beyond-use-dates.json";

interface Row {
  id: string;
  kind: string;
  standard: string;
  limit?: { value: string; unit: string } | null;
  verified: string;
  storage?: string;
  process?: string;
  sterility_test?: string;
  starting_components?: string;
  agrees_with?: string[];
  source: { title: string };
}

const rows = table.rows as unknown as Row[];
const editionOf: Readonly<Record<string, string>> = {
  "USP <797> 2023": "usp-797-2023",
  "USP <797> 2008": "usp-797-2008",
  "Wis. Phar 15.34 (CR 22-007)": "wisconsin-phar-15",
  "Wis. Phar 15.37": "wisconsin-phar-15",
  "Nev. NAC 639.67067": "nevada-nac-639",
  "Cal. 16 CCR 1751.9": "california-1751-9",
  "NAPRA model standards": "napra-sterile-2016",
  "UK unlicensed aseptic preparation (Section 10 exemption)": "uk-section-10",
  "UK, preparation in a clinical area": "uk-clinical-area",
};

/** In-use rows that no edition carries, with the reason. */
const notCarried: Readonly<Record<string, string>> = {
  "usp23-sdv-worse": "outside ISO class 5: the cabinet of a site that prepares is at least that",
  "usp23-pbp": "follows the label of each product: the stock's own `in-use`",
  "label-pbp-ceftriaxone": "one product's label: the stock's own `in-use`",
  "usp23-compounded-mdv": "of a compounded stock: no library declares one as bought",
  "usp23-compounded-sdv": "of a compounded stock: no library declares one as bought",
  "ca-sdv-worse": "outside ISO class 5: the cabinet of a site that prepares is at least that",
  "ema-diluted": "default text of labels: the stock's own `in-use`",
  "ema-preserved": "default text of labels: the stock's own `in-use`",
  "bpc-mdv-heat": "tells multiple-dose products by how they were sterilised, which no stock declares",
  "bpc-mdv-filtered": "tells multiple-dose products by how they were sterilised, which no stock declares",
};

const quantity = ({ value, unit }: { value: string; unit: string }) =>
  measure(`${value} ${{ hour: "h", day: "days", minute: "min" }[unit] ?? unit}`);

describe("each published limit", () => {
  const carried = new Map(
    policyEditions.flatMap((edition) =>
      [...edition.rows, ...edition.inUse].map((row) => [row.id, { edition: edition.name, row }] as const),
    ),
  );
  const published = rows.filter((row) => row.kind === "bud" || row.kind === "in-use");

  it("is carried or stands in the list of those that are not", () => {
    expect(published.filter((r) => !carried.has(r.id) && !notCarried[r.id]).map((r) => r.id)).toEqual([]);
    expect([...carried.keys()].filter((id) => !published.some((r) => r.id === id))).toEqual([]);
    expect(Object.keys(notCarried).filter((id) => carried.has(id))).toEqual([]);
  });

  for (const row of published.filter((r) => carried.has(r.id))) {
    it(`${row.id}: ${row.limit ? `${row.limit.value} ${row.limit.unit}` : "no storage"} (${row.source.title.slice(0, 60)})`, () => {
      const { edition, row: own } = carried.get(row.id)!;
      expect(edition).toBe(editionOf[row.standard]);
      expect(own.limit === undefined).toBe(!row.limit);
      if (row.limit && own.limit) {
        const wanted = quantity(row.limit);
        expect(own.limit.unit.dimension).toBe(wanted.unit.dimension);
        expect(inBase(own.limit).equals(inBase(wanted))).toBe(true);
      }
      expect(own.footing).toBe(row.verified === "read" ? "read" : "recalled");
      const agrees = (row.agrees_with ?? []).some((id) => rows.find((r) => r.id === id)?.verified === "read");
      expect(isSeen(own)).toBe(row.verified === "read" || agrees);
    });
  }
});

const places: Readonly<Record<string, string>> = {
  "controlled-room-temperature": "room-temperature",
  refrigerator: "refrigerator",
  freezer: "freezer",
};

function found(row: Row, stated: string): string[] {
  const edition = policyEdition(editionOf[row.standard]!)!;
  const own = edition.rows.find((r) => r.id === row.id)!;
  const place = places[own.place] ?? "room-temperature";
  const sterility = [
    own.process === "any" ? "aseptic" : own.process,
    own.tested === true ? "tested" : "untested",
    own.components === "nonsterile" ? "nonsterile-components" : "",
  ].join(" ");
  const library = new Library({ asOf: "2026-11-25" });
  library.open(
    "example.misce",
    example(
      ["usp-797-2023 category 2", edition.name + (own.category ? ` category ${own.category}` : "")],
      ["    at             room-temperature\n", "    at             any\n"],
      ["    for            24 h\n", "    for            400 days\n"],
      [
        "    use-within     24 h at room-temperature\n",
        `    sterility      ${sterility}\n    use-within     ${stated} at ${place}\n`,
      ],
    ),
  );
  return library
    .findings("example.misce")
    .map((f) => f.name)
    .filter((name) => name.startsWith("use-within") || name.startsWith("beyond-use") || name.startsWith("fact-not"));
}

const unitOf: Readonly<Record<string, string>> = { hour: "h", day: "days", minute: "min" };

describe("a library that names the edition", () => {
  const asked = rows.filter((r) => r.kind === "bud" && r.id !== "uk-ward-complete");
  for (const row of asked) {
    it(`${row.standard}, ${row.id}`, () => {
      const beyond =
        row.verified === "read" || (row.agrees_with ?? []).length > 0
          ? "use-within-longer-than-policy"
          : "use-within-not-compared";
      if (!row.limit) {
        expect(found(row, "1 h")).toEqual([beyond]);
        return;
      }
      const { value, unit } = row.limit;
      expect(found(row, `${value} ${unitOf[unit]}`)).toEqual([]);
      expect(found(row, `${Number(value) + 1} ${unitOf[unit]}`)).toEqual([beyond]);
    });
  }
});
