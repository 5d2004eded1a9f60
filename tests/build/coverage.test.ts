/**
 * Every row of the published tables is answered by a check, printed as a caution, or stands on the page with the reason why a
 * recipe cannot show it. `MISCE_WRITE=1` writes the page anew.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { allVerbs } from "../../language/bench/verbs/index.ts";
import { absentRows } from "../../language/checks/absent-rows.ts";
import { allChecks } from "../../language/checks/registry.ts";
import { coveragePage } from "./coverage-page.ts";
import { keys, type PublishedRow, published, sourcesOf, tables } from "./published-rows.ts";

const root = join(import.meta.dirname, "../..");

describe("every published row has its answer", () => {
  it("counts the tables", () => {
    expect(tables.map((table) => [table.name, table.rows.length])).toEqual([
      ["technique-rules", 70],
      ["record-elements", 87],
      ["beyond-use-dates", 20],
      ["error-prone-notation", 54],
    ]);
  });

  const absent = new Map(absentRows.flatMap(({ reason, rows }) => rows.map((row) => [row, reason] as const)));
  const checks = new Set(allChecks.flatMap((check) => check.rows ?? []));
  const cautions = new Set(
    allVerbs.flatMap((verb) => verb.cautions.flatMap((c) => (c.rows ?? []).map((row) => `technique-rules ${row}`))),
  );

  for (const key of keys) {
    it(key, () => {
      const answered = checks.has(key) || cautions.has(key);
      expect(
        answered !== absent.has(key),
        answered ? "has an answer and a reason for having none" : "no answer and no reason",
      ).toBe(true);
    });
  }

  it("claims no row that is not in a table", () => {
    const own = new Set(tables.map((table) => table.name));
    const claimed = [...checks, ...cautions, ...absent.keys()].filter((row) => own.has(row.split(" ")[0]!));
    expect(claimed.filter((row) => !published.has(row))).toEqual([]);
  });

  it("gives each absent row one reason", () => {
    expect(absent.size).toBe(absentRows.flatMap((group) => group.rows).length);
  });
});

describe("a check names its published source", () => {
  for (const check of allChecks) {
    it(check.name, () => {
      expect(check.source, "names a table of this repository instead of a publication").not.toMatch(
        /published technique rules|practice tables|record elements for|expiry reading rules/i,
      );
      const rows = (check.rows ?? [])
        .map((key) => published.get(key))
        .filter((row): row is PublishedRow => row !== undefined);
      const read = rows.filter((row) => row.verified === "read");
      if (rows.length > 0 && read.length === 0) expect(check.source).toMatch(/from memory|common practice/);
      const named = read.filter((row) => sourcesOf(row).some((title) => check.source.includes(title)));
      if (read.length > 0)
        expect(
          named.map((row) => row.id),
          check.source,
        ).not.toEqual([]);
    });
  }
});

it("the page of coverage", () => {
  const file = join(root, "language/checks/COVERAGE.md");
  const page = coveragePage();
  if (process.env.MISCE_WRITE === "1") writeFileSync(file, page);
  expect(existsSync(file), "language/checks/COVERAGE.md is missing: npm run pages").toBe(true);
  expect(readFileSync(file, "utf8"), "language/checks/COVERAGE.md is out of date: npm run pages").toBe(page);
});
