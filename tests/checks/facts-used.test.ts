/**
 * A fact that is read and never judged is an all clear that nobody gave. Every fact of every block is asked for while the
 * examples of all checks are judged, or printed by the sheet, or stands below with the reason why it is for people to read only.
 * Asking is watched as it happens, block by block, so that `use` of an order does not answer for `use` of an intermediate.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Found } from "../../language/checks/check.ts";
import { allChecks, checkByName } from "../../language/checks/registry.ts";
import { Library } from "../../language/library.ts";
import type { Declaration } from "../../language/model/declaration.ts";
import { Facts } from "../../language/model/facts.ts";
import { factTables } from "../../language/model/read-chunk.ts";

const sheetFolder = join(import.meta.dirname, "../../language/sheet");
const sheet = readdirSync(sheetFolder)
  .map((name) => readFileSync(join(sheetFolder, name), "utf8"))
  .join("\n");

/** Printed for the bench: asked for by the room that makes sheets and labels. */
const printed: ReadonlySet<string> = new Set([
  "site name",
  "drug name",
  "fluid name",
  "drug note",
  "fluid note",
  "stock note",
  "stock storage",
  "device note",
  "device gauge",
  "site note",
  "site time-zone",
  "recipe note",
  "label-text line",
  "preparation after-opening",
]);

const source = "names the source for people; what is judged is that a source stands and is declared";
const invented = "marks what is made up for a demonstration, for whoever reads the text";

/** Read by people, with the reason. A fact that comes to be judged must leave this list. */
const readByPeopleOnly: Readonly<Record<string, string>> = {
  "drug invented": invented,
  "fluid invented": invented,
  "stock invented": invented,
  "reference invented": invented,
  "fluid ph": "no rule follows from a pH alone: compatibility is declared, never reckoned from it",
  "reference title": source,
  "reference publisher": source,
  "reference edition": source,
  "reference year": source,
  "reference url": source,
  "site approvals": "asked for where the records beside the recipes are read (language/compare)",
  "reference note": "says which parts of a source were read",
};

const asked = new Map<Facts, Set<string>>();
const used = new Set<string>();
const { one, all } = Facts.prototype;

/** The check of required facts asks for each of them whatever it says: that is no judging. */
let onlyMissing = false;

function note(facts: Facts, word: string): void {
  if (onlyMissing) return;
  const words = asked.get(facts);
  if (words) words.add(word);
  else asked.set(facts, new Set([word]));
}

/** The blocks of a declaration with their facts. */
function blocksOf(declaration: Declaration): [string, Facts][] {
  const blocks: [string, unknown][] = [[declaration.kind, declaration.facts]];
  if (declaration.kind === "drug") for (const row of declaration.stable) blocks.push(["stable", row]);
  if (declaration.kind === "stock") blocks.push(["reconstitute", declaration.reconstitute]);
  if (declaration.kind === "recipe") {
    blocks.push(["order", declaration.order], ["label-text", declaration.labelText]);
    for (const p of declaration.preparations) blocks.push(["preparation", p.facts]);
    for (const p of declaration.intermediates) blocks.push(["intermediate", p.facts]);
    for (const p of declaration.examples) blocks.push(["example", p.facts]);
  }
  return blocks.filter((block): block is [string, Facts] => block[1] !== undefined);
}

beforeAll(() => {
  Facts.prototype.one = function (this: Facts, word: string) {
    note(this, word);
    return one.call(this, word);
  } as typeof one;
  Facts.prototype.all = function (this: Facts, word: string) {
    note(this, word);
    return all.call(this, word);
  } as typeof all;
  const missing = checkByName.get("fact-missing")!;
  const find = missing.find as (context: unknown) => Iterable<Found>;
  missing.find = (context: unknown) => {
    onlyMissing = true;
    const found = [...find(context)];
    onlyMissing = false;
    return found;
  };
  for (const { bad, good, asOf } of allChecks) {
    for (const text of [bad, good]) {
      const library = new Library({ asOf: asOf ?? "2026-11-25" });
      library.open("example.misce", text);
      library.findings("example.misce");
      for (const chunk of library.chunks("example.misce")) {
        for (const [block, facts] of chunk.reading.declarations.flatMap(blocksOf)) {
          for (const word of asked.get(facts) ?? []) used.add(`${block} ${word}`);
        }
      }
      asked.clear();
    }
  }
}, 120_000);

afterAll(() => {
  Facts.prototype.one = one;
  Facts.prototype.all = all;
});

describe.each(Object.entries(factTables))("the facts of `%s`", (block, table) => {
  it.each(Object.keys(table))("%s", (word) => {
    const name = `${block} ${word}`;
    if (word === "source") return; // given to each fact of the block as it is read, and judged there
    if (name in readByPeopleOnly) {
      expect(used.has(name), `${name} is judged now: take it out of the list`).toBe(false);
    } else if (printed.has(name)) {
      expect(sheet).toMatch(new RegExp(`(one|all)\\("${word}"\\)`));
    } else {
      expect(used.has(name), `nobody asks for \`${word}\` of ${block}`).toBe(true);
    }
  });
});

it("lists only facts that exist", () => {
  const known = new Set(Object.entries(factTables).flatMap(([b, table]) => Object.keys(table).map((w) => `${b} ${w}`)));
  for (const name of [...Object.keys(readByPeopleOnly), ...printed]) expect(known).toContain(name);
});
