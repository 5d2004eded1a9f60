/** The JSON forms against their schemas, approvals as findings, and the canonical text for git. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { expect, test } from "vitest";
import { meaningMaker } from "../../language/compare/meaning-maker.ts";
import { meaningText } from "../../language/compare/meaning-text.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { deletionMutants, figureMutants, swapMutants } from "../mutation/mutants.ts";
import { compared, edited, libraryOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const magnesium = "recipes/magnesium-4g.misce";

function schema(name: string) {
  return new Ajv().compile(JSON.parse(readFileSync(join(import.meta.dirname, "../../shared", name), "utf8")));
}

test("comparisons of every kind of change fit the schema", () => {
  const validate = schema("comparison.schema.json");
  const without = new Map(texts);
  without.delete(magnesium);
  const renamed = new Map([...texts].map(([n, t]) => [n, t.replaceAll("vancomycin-vial-500", "vanco-half")]));
  const ranged = edited(texts, "recipes/vancomycin-loading.misce", "25 mg/kg", "250 mg/kg");
  const broken = edited(texts, magnesium, "draw 4 g from", "draw 4 g form");
  for (const other of [texts, without, renamed, ranged, broken]) {
    for (const comparison of [compared(texts, other), compared(other, texts)]) {
      expect([validate(JSON.parse(JSON.stringify(comparison))), validate.errors]).toEqual([true, null]);
    }
  }
  expect(validate({ ...compared(texts, texts), level: "huge" })).toBe(false);
});

test("a record fits its schema; of one role the last approval counts", () => {
  const validate = schema("approvals.schema.json");
  const library = libraryOf(texts);
  const given = { role: "pharmacist", date: "2026-11-25", revision: null };
  const first = meaningMaker.approve(library, "magnesium-4g", given, undefined);
  if ("fault" in first) throw new Error(first.fault);
  expect([validate(JSON.parse(first.text)), validate.errors]).toEqual([true, null]);
  const changed = libraryOf(edited(texts, magnesium, "infuse-over     4 h", "infuse-over     5 h"));
  const findings = (text: string) =>
    meaningMaker.approvalFindings(changed, "magnesium-4g", magnesium, text, () => library);
  expect(findings(first.text)).toMatchObject([
    { name: "approval-stale", severity: "warning", subject: "recipe magnesium-4g", span: { file: magnesium } },
  ]);
  expect(findings(first.text)[0]!.message).toContain("order: infuse-over 4 h → infuse-over 5 h");
  const read = meaningMaker.readApprovals(first.text);
  if ("fault" in read) throw new Error(read.fault);
  const second = meaningMaker.approve(changed, "magnesium-4g", given, read);
  if ("fault" in second) throw new Error(second.fault);
  expect(JSON.parse(second.text).approvals).toHaveLength(2);
  expect(findings(second.text)).toEqual([]);
});

test.each([
  ["", /no JSON text/],
  ["null", /not of the form/],
  ['{"schema":"misce-approvals/1","recipe":"a","approvals":[{}]}', /lacks a role/],
  [
    '{"schema":"misce-approvals/1","recipe":"a","approvals":[{"role":"pharmacist","date":"2026-13-45","fingerprint":"x","revision":null,"restsOn":{}}]}',
    /lacks a role/,
  ],
])("a record that says %s approves nothing", (text, why) => {
  expect(meaningMaker.readApprovals(text)).toMatchObject({ fault: expect.stringMatching(why) });
});

test("canonical text: the same for other layout, another for every clinical fault", () => {
  for (const [name, text] of texts) {
    const plain = meaningText(text);
    expect([name, meaningText(formatText(text.replace(/^( +\S.*)$/gm, "$1  # note")))]).toEqual([name, plain]);
    if (!name.startsWith("recipes/")) continue;
    const mutants = [...figureMutants(name, text), ...deletionMutants(name, text), ...swapMutants(name, text)];
    for (const mutant of mutants.filter((_, k) => k % 7 === 0)) {
      expect([mutant.what, mutant.words, meaningText(mutant.text) === plain]).toEqual([
        mutant.what,
        mutant.words,
        false,
      ]);
    }
  }
});
