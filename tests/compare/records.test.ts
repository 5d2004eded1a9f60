/** The JSON forms against their schemas, approvals as findings, and the canonical text for git. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, test } from "vitest";
import type { ApprovalRecord } from "../../language/compare/approvals.ts";
import { compareLibraries } from "../../language/compare/compare.ts";
import { factLine } from "../../language/compare/comparison-words.ts";
import { type FingerprintAlgorithm, fingerprintOf, fingerprintsOfParts } from "../../language/compare/fingerprint.ts";
import { meaningMaker } from "../../language/compare/meaning-maker.ts";
import { meaningText } from "../../language/compare/meaning-text.ts";
import { changesOfRecipe } from "../../language/compare/recipe-changes.ts";
import type { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
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

test("an approval of a later day does not count, and is told", () => {
  const library = libraryOf(texts); // judged as of 2026-11-25
  const given = (date: string) => ({ role: "pharmacist", date, revision: null });
  const approve = (of: Library, date: string, before?: string) => {
    const record = before === undefined ? undefined : meaningMaker.readApprovals(before);
    const made = meaningMaker.approve(of, "magnesium-4g", given(date), record as ApprovalRecord | undefined);
    if ("fault" in made) throw new Error(made.fault);
    return made.text;
  };
  const told = (of: Library, text: string) =>
    meaningMaker.approvalFindings(of, "magnesium-4g", magnesium, text, () => library).map((f) => f.name);
  const asked = libraryOf(edited(texts, "site.misce", "  note ", "  approvals       pharmacist\n  note "));
  expect(told(library, approve(library, "2026-11-25"))).toEqual([]);
  expect(told(library, approve(library, "2026-11-26"))).toEqual(["approval-later"]);
  expect(told(asked, approve(asked, "2026-11-26"))).toEqual(["approval-later", "approval-missing"]);
  // The meaning of that day was another; the change was approved later only.
  const changed = libraryOf(edited(texts, magnesium, "infuse-over     4 h", "infuse-over     5 h"));
  const early = approve(library, "2026-11-20");
  expect(told(changed, approve(changed, "2026-12-01", early))).toEqual(["approval-stale", "approval-later"]);
  // Approved before and again since: it stood on the day.
  expect(told(library, approve(library, "2026-12-01", early))).toEqual([]);
});

describe("an approval under an earlier version of the fingerprint", () => {
  const library = libraryOf(texts);
  const [recipe] = library.declared("magnesium-4g").filter((d): d is Recipe => d.kind === "recipe");
  const record = (of: Library, algorithm: FingerprintAlgorithm): string =>
    JSON.stringify({
      schema: "misce-approvals/1",
      recipe: "magnesium-4g",
      approvals: [
        {
          role: "pharmacist",
          date: "2026-11-20",
          fingerprint: fingerprintOf(recipe!, of, algorithm),
          revision: null,
          restsOn: fingerprintsOfParts(recipe!, of, algorithm),
        },
      ],
      notice: "",
    });
  const told = (of: Library, text: string) =>
    meaningMaker.approvalFindings(of, "magnesium-4g", magnesium, text, () => undefined).map((f) => f.message);

  test("is held against the meaning in the way of that version", () => {
    expect(told(library, record(library, "misce-meaning-1"))).toEqual([]);
    const staffed = libraryOf(edited(texts, "site.misce", "  note ", "  role            senior-technician\n  note "));
    expect(told(staffed, record(library, "misce-meaning-2"))).toEqual([]);
    expect(told(staffed, record(library, "misce-meaning-3"))).toEqual([]);
    const [stale, ...others] = told(staffed, record(library, "misce-meaning-1"));
    expect(others).toEqual([]);
    expect(stale).toContain(
      "Approved by pharmacist on 2026-11-20 under an earlier fingerprint version (misce-meaning-1), but the meaning has changed since: site says something else.",
    );
  });

  test("is not stale by a look-alike, of which that version counted nothing; one of today is, by what is printed of it", () => {
    const near = edited(
      texts,
      "stock/vials.misce",
      /^stock magnesium-vial-10 \{\n/m,
      "$&  looks-like  ketamine-vial-50\n",
    );
    const other = edited(near, "stock/vials.misce", /(strength +)50 mg\/mL as/, "$160 mg/mL as");
    const warm = edited(
      near,
      "stock/vials.misce",
      /(stock ketamine-vial-50 [^}]*storage +)room-temperature/,
      "$1refrigerator",
    );
    expect(told(libraryOf(other), record(libraryOf(near), "misce-meaning-2"))).toEqual([]);
    expect(told(libraryOf(warm), record(libraryOf(near), "misce-meaning-3"))).toEqual([]);
    expect(told(libraryOf(other), record(libraryOf(near), "misce-meaning-3")).join()).toContain(
      "Approved by pharmacist on 2026-11-20, but the meaning has changed since: look-alike stock ketamine-vial-50 says something else.",
    );
    const through = (after: ReadonlyMap<string, string>) => {
      const change = compared(near, after).declarations.find((d) => d.name === "magnesium-4g");
      return change && [change.level, ...change.reachedThrough.map((r) => [r.declaration, ...r.path].join(" < "))];
    };
    expect(through(other)).toEqual(["fact", "stock ketamine-vial-50 < material mag < looks-like"]);
    expect(through(warm)).toBeUndefined();
  });

  test("is never taken for valid or for stale where the version is not known", () => {
    const unknown = record(library, "misce-meaning-2").replaceAll("misce-meaning-2:", "misce-meaning-9:");
    expect(told(library, unknown).join()).toContain(
      "under a fingerprint version that this program does not know (misce-meaning-9), so it cannot be told whether the meaning is the same",
    );
  });
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

describe("a site that asks for approvals", () => {
  const asking = edited(
    texts,
    "site.misce",
    "  note ",
    "  approvals       pharmacist\n  approvals       aseptic-lead\n  note ",
  );
  const given = (role: string) => ({ role, date: "2026-11-25", revision: null });
  const told = (of: ReadonlyMap<string, string>, text?: string) =>
    meaningMaker.approvalFindings(libraryOf(of), "magnesium-4g", magnesium, text, () => undefined);

  test("is told of each that is missing, with the command that gives it", () => {
    const findings = told(asking);
    expect(findings.map((f) => [f.name, f.severity, f.subject, f.span.file])).toEqual(
      Array(2).fill(["approval-missing", "warning", "recipe magnesium-4g", magnesium]),
    );
    expect(findings.map((f) => f.message).join("\n")).toMatch(
      /No approval by pharmacist .*`misce approve magnesium-4g --role pharmacist`[\s\S]*No approval by aseptic-lead/,
    );
  });

  test("is silent once every role has approved, and asks again only for what is missing", () => {
    const library = libraryOf(asking);
    const first = meaningMaker.approve(library, "magnesium-4g", given("pharmacist"), undefined);
    if ("fault" in first) throw new Error(first.fault);
    expect(told(asking, first.text)).toMatchObject([
      { name: "approval-missing", message: expect.stringContaining("by aseptic-lead") },
    ]);
    const read = meaningMaker.readApprovals(first.text);
    if ("fault" in read) throw new Error(read.fault);
    const second = meaningMaker.approve(library, "magnesium-4g", given("aseptic-lead"), read);
    if ("fault" in second) throw new Error(second.fault);
    expect(told(asking, second.text)).toEqual([]);
    // What was approved by both, and then changed: two stale ones, none missing.
    const changed = edited(asking, magnesium, "infuse-over     4 h", "infuse-over     5 h");
    expect(told(changed, second.text).map((f) => f.name)).toEqual(["approval-stale", "approval-stale"]);
  });

  test("an approval stands although the site asks for one more role, and none is asked for where the site is silent", () => {
    const first = meaningMaker.approve(libraryOf(texts), "magnesium-4g", given("pharmacist"), undefined);
    if ("fault" in first) throw new Error(first.fault);
    expect(told(asking, first.text).map((f) => f.name)).toEqual(["approval-missing"]);
    expect(told(texts)).toEqual([]);
  });

  test.each([
    ["error", ["error", "error"]],
    ["off", []],
  ])("the site may make it %s", (level, severities) => {
    const weighed = edited(
      asking,
      "site.misce",
      "  note ",
      `  severity        approval-missing ${level}\n    because "house rule"\n  note `,
    );
    expect(told(weighed).map((f) => f.severity)).toEqual(severities);
  });
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

test("what changed for one recipe is what the comparison of the whole library tells of it", () => {
  const name = "magnesium-4g";
  // A part of the library: each row is a comparison of all of it.
  const texts = new Map([...sampleTexts()].filter(([n]) => !/recipes\//.test(n) || /magnesium-|vancomycin-/.test(n)));
  const wholly = (before: Library, after: Library): string[] => {
    const names = { before: "approved", after: "now" };
    const { declarations } = compareLibraries({ before, after, names, version: "", notOpened: [] });
    const own = declarations.find((d) => d.kind === "recipe" && d.name === name);
    const keyOf = (d: { kind: string; name: string }) => (d.kind === "site" ? "site" : `${d.kind} ${d.name}`);
    const reached = new Set(own?.reachedThrough.map((r) => r.declaration).filter((d) => !d.startsWith("lots ")));
    return declarations
      .filter((d) => d === own || reached.has(keyOf(d)))
      .flatMap((d) => {
        if (d.how === "added" || d.how === "removed")
          return [`${keyOf(d)} ${d.how === "added" ? "is new" : "was taken out"}`];
        return d.facts.map((fact) => (d === own ? factLine(fact) : `${keyOf(d)}: ${factLine(fact)}`));
      });
  };
  const drug = "drugs/magnesium-sulfate.misce";
  const others: [string, Map<string, string>][] = [
    ["nothing", texts],
    ["the recipe", edited(texts, magnesium, "infuse-over     4 h", "infuse-over     5 h")],
    ["its drug", edited(texts, drug, /high-alert +yes/, "high-alert no")],
    ["its stock", edited(texts, "stock/vials.misce", /strength( +)500 mg\/mL/, "strength$1200 mg/mL")],
    ["the site", edited(texts, "site.misce", "dose 5 %", "dose 3 %")],
    ["another recipe", edited(texts, "recipes/vancomycin-loading.misce", "25 mg/kg", "250 mg/kg")],
    ["a name", new Map([...texts].map(([n, t]) => [n, t.replaceAll("magnesium-vial-10", "magnesium-ten")]))],
    ["a file", new Map([...texts].filter(([n]) => n !== drug))],
    ["all files", new Map([...texts].map(([n, t]) => [n, t.replaceAll("2", "3")]))],
  ];
  let told = 0;
  for (const [what, other] of others) {
    for (const [before, after] of [
      [texts, other],
      [other, texts],
    ] as const) {
      const [was, is] = [libraryOf(before), libraryOf(after)];
      const lines = changesOfRecipe(was, is, name);
      expect(lines, what).toEqual(wholly(libraryOf(before), libraryOf(after)));
      told += lines.length;
    }
  }
  expect(told).toBeGreaterThan(20);
});
