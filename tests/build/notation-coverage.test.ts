/**
 * The bad examples of the error-prone notation, written into a library: each is found there by a check that claims its row. (What
 * a number or a word is read as, row by row, is in tests/quantities/notation.test.ts.)
 */
import { describe, expect, it } from "vitest";
import { absentRows } from "../../language/checks/absent-rows.ts";
import { example } from "../../language/checks/example.ts";
import { allChecks } from "../../language/checks/registry.ts";
import { Library } from "../../language/library.ts";
import { published, tables } from "./published-rows.ts";

/** House rules under which a row's list is followed; rows that no house asks for are found under the default. */
const houses: Readonly<Record<string, string>> = {
  "unit-IU-jc": "  activity       international units",
  "microgram-full": "  microgram      micrograms",
  "space-separator": "  thousands      thin-space",
  "thousands-in-words": "  thousands      words",
  "unneeded-decimal": "  small-decimals smaller-unit",
  "many-decimals": "  decimals       one-place",
};

/** Texts that two rows speak of: the tool speaks once, under the other row. */
const saidUnder: Readonly<Record<string, string>> = {
  "thousand-K 5 M units (thousand)": "million-as-m",
  "chem-abbrev MgSO4": "morphine-or-magnesium",
};

/** Where an author may write it: in words that are printed, as a figure of a fact, as a step. */
const places: readonly ((bad: string) => [string, string])[] = [
  (bad) => [
    '  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"',
    `  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"\n  note   "give ${bad} now"`,
  ],
  (bad) => ["    dose            4 g per bag", `    dose            ${bad} per bag`],
  (bad) => ["    mix bag by inverting 10 times", `    draw ${bad} from mag into syringe`],
  (bad) => ["    infuse-over     4 h", `    infuse-over     ${bad}`],
  (bad) => ["    route           intravenous", `    route           ${bad}`],
  (bad) => ["  strength   500 mg/mL", `  strength   ${bad}`],
  (bad) => ["  strength   500 mg/mL", `  strength   ${bad.replace(/^[a-z]+ /i, "")}`],
];

function found(change: [string, string], house: string | undefined): string[] {
  const changes: [string, string][] = house
    ? [["  role           pharmacist", `  role           pharmacist\n${house}`], change]
    : [change];
  const library = new Library({ asOf: "2026-11-25" });
  library.open("bad.misce", example(...changes));
  return library.findings("bad.misce").map((finding) => finding.name);
}

const absent = new Set(absentRows.flatMap((group) => group.rows));

describe("bad notation in a library", () => {
  for (const row of tables.find((table) => table.name === "error-prone-notation")!.rows) {
    const key = `error-prone-notation ${row.id}`;
    if (absent.has(key)) continue;
    const claiming = allChecks.filter((check) => check.rows?.includes(key)).map((check) => check.name);
    for (const bad of published.get(key)!.bad!) {
      it(`${row.id}: ${bad}`, () => {
        const all = places.flatMap((place) => found(place(bad.replaceAll('"', "")), houses[row.id]));
        const names = [...claiming, saidUnder[`${row.id} ${bad}`] ?? ""];
        expect(
          names.some((name) => all.includes(name)),
          `${claiming.join(", ")} not among ${[...new Set(all)].join(", ")}`,
        ).toBe(true);
      });
    }
  }
});

/** Rows about a figure with its unit: as unsafe in a title, a note or a line of the label as in a fact. */
const ofFigures = [
  "trailing-zero",
  "naked-decimal",
  "unit-U",
  "unit-IU-ismp",
  "cc",
  "ug-sign",
  "no-thousands-separator",
  "run-together-number-unit",
];

describe("bad notation of figures in printed words", () => {
  for (const id of ofFigures) {
    const key = `error-prone-notation ${id}`;
    const claiming = allChecks.filter((check) => check.rows?.includes(key)).map((check) => check.name);
    for (const bad of published.get(key)!.bad!.filter((text) => /^[.\d]/.test(text))) {
      it(`${id}: ${bad}`, () => {
        const all = found(places[0]!(bad), undefined);
        expect(
          claiming.some((name) => all.includes(name)),
          `${claiming.join(", ")} not among ${all.join(", ")}`,
        ).toBe(true);
      });
    }
    for (const good of published.get(key)!.good!) {
      it(`${id}, safe: ${good}`, () => {
        expect(found(places[0]!(good), undefined).filter((name) => claiming.includes(name))).toEqual([]);
      });
    }
  }
});
