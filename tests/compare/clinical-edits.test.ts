/** Every edit of clinical-edits.ts is told on its level, of its declarations and with its figures, in each printed form; others are not told. */
import { afterAll, describe, expect, test, vi } from "vitest";
import { verbsByWord } from "../../language/bench/verbs/index.ts";
import { rangeNotDecided } from "../../language/checks/structure/range-not-decided.ts";
import { compareLibraries } from "../../language/compare/compare.ts";
import { comparisonForms, comparisonReport } from "../../language/compare/comparison-reports.ts";
import { type ChangeLevel, type Comparison, changeLevels, type DeclarationChange } from "../../shared/comparison.ts";
import {
  type ClinicalEdit,
  type Edit,
  orderEdits,
  preparationEdits,
  rangeEdits,
  sharedEdits,
  silentEdits,
  stepEdits,
  wordEdits,
} from "./clinical-edits.ts";
import { compared, edited, libraryOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
/** Opened once: what it finds does not change between edits. */
const untouched = libraryOf(texts);
const about = { names: { before: "A", after: "B" }, version: "test", notOpened: [] };

function made(from: ReadonlyMap<string, string>, edits: readonly Edit[]): Map<string, string> {
  return edits.reduce((all, { file, was, is }) => edited(all, file, was, is), new Map(from));
}

function comparisonOf({ before = [], edits }: ClinicalEdit): Comparison {
  const base = made(texts, before);
  const sides = { before: before.length === 0 ? untouched : libraryOf(base), after: libraryOf(made(base, edits)) };
  return compareLibraries({ ...sides, ...about });
}

const keyOf = ({ kind, name }: DeclarationChange) => (kind === "site" ? "site" : `${kind} ${name}`);

describe.each([
  ["an order", orderEdits],
  ["a ranged order", rangeEdits],
  ["materials and steps", stepEdits],
  ["words, and what the site decides for itself", wordEdits],
  ["a preparation", preparationEdits],
  ["what recipes rest on", sharedEdits],
])("in %s", (_, all) => {
  test.each(all.map((each) => [each.name, each] as const))("%s", (_, expected) => {
    const comparison = comparisonOf(expected);
    expect(comparison.level).toBe(expected.level);
    expect(comparison.notRead).toEqual([]);
    if (typeof expected.of === "number") expect(comparison.declarations).toHaveLength(expected.of);
    else {
      const levels = comparison.declarations.map((d): [string, ChangeLevel] => [keyOf(d), d.level]);
      expect(Object.fromEntries(levels)).toEqual(expected.of);
    }
    const text = comparisonReport(comparison, "text");
    for (const words of expected.says) expect(text).toContain(words);
    for (const [name, checks] of Object.entries(expected.verdicts ?? {})) {
      const own = comparison.declarations.find((d) => keyOf(d) === name);
      expect(own?.verdicts.map((v) => `${v.how} ${v.name}`)).toEqual(checks);
    }
    for (const declaration of comparison.declarations) expectLevel(declaration);
    expectAllForms(comparison);
  });
});

/** The level is the gravest of what is told. */
function expectLevel({ level, facts, reachedThrough, consequences, verdicts }: DeclarationChange): void {
  const told = [
    facts.length + reachedThrough.length > 0 ? "fact" : "none",
    consequences.length > 0 ? "consequence" : "none",
    verdicts.length > 0 ? "verdict" : "none",
  ] as const;
  expect(level).toBe(changeLevels[Math.max(...told.map((each) => changeLevels.indexOf(each)))]);
}

/** No form leaves out a figure or a verdict that the data hold; markup aside. */
function expectAllForms(comparison: Comparison): void {
  for (const form of comparisonForms.filter((f) => f !== "json")) {
    const report = comparisonReport(comparison, form);
    const plain = unmarked(form === "text" ? report : report.replace(/<\/?[a-z][^>]*>/g, ""));
    for (const { consequences, verdicts, name } of comparison.declarations) {
      expect(plain).toContain(unmarked(name));
      for (const { before, after, at } of consequences) {
        if (before && after) expect(plain).toContain(unmarked(`${before} → ${after}`));
        expect(plain).toContain(unmarked(at));
      }
      for (const verdict of verdicts) expect(plain).toContain(unmarked(verdict.after || verdict.before));
    }
  }
}

function unmarked(text: string): string {
  const plain = text
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">");
  return plain.replace(/\\/g, "").replace(/\s+/g, " ");
}

describe("nothing is told of", () => {
  test.each(silentEdits)("%s", (_, edits) => {
    expect(compareLibraries({ before: untouched, after: libraryOf(made(texts, edits)), ...about })).toMatchObject({
      level: "none",
      exitStatus: 0,
      declarations: [],
      notRead: [],
    });
  });
});

test("there are sixty edits and more", () => {
  const told = [orderEdits, rangeEdits, stepEdits, preparationEdits, sharedEdits].flat();
  expect(told.length + silentEdits.length).toBeGreaterThanOrEqual(60);
});

test("a part of the range for which nothing is decided any more is a proof lost, and won the other way round", () => {
  const sides = [rangeNotDecided.good, rangeNotDecided.bad].map((text) => new Map([["all.misce", text]])) as [
    Map<string, string>,
    Map<string, string>,
  ];
  const how = (c: Comparison) => c.declarations.flatMap((d) => d.verdicts.map((v) => `${v.how} ${v.name}`));
  const lost = compared(...sides);
  expect(how(lost)).toContain("proof lost range-not-decided");
  expect(comparisonReport(lost, "text")).toContain("proof lost, error range-not-decided: Not decided for");
  expect(how(compared(sides[1], sides[0]))).toContain("proof won range-not-decided");
});

test("of a range in which all figures fall to a tenth, each pair of figures is told once and the worst is among them", () => {
  const [told] = compared(
    texts,
    edited(texts, "recipes/vancomycin-loading.misce", "dose 2 g", "dose 200 mg"),
  ).declarations;
  const doses = told!.consequences.filter((c) => c.what === "dose of vancomycin");
  // 25 mg/kg to the nearest 250 mg: 1,000 mg at 40 kg, 2,000 mg from 75 kg on. One row each; the highest weight is the worst as well.
  expect(doses.map((c) => `${c.before} → ${c.after}`)).toEqual([
    "1,000 mg → 200 mg",
    "2,000 mg → 200 mg",
    "1,250 mg → 200 mg",
    "1,500 mg → 200 mg",
    "1,750 mg → 200 mg",
  ]);
  expect(doses.find((c) => c.isMost)).toMatchObject({ at: "weight 120 kg", alarm: "10 times less" });
});

describe("where a fault of the program breaks off the bench", () => {
  const [mix] = verbsByWord.get("mix")!;
  const isBroken = vi.spyOn(mix!, "act");
  afterAll(() => isBroken.mockRestore());

  test.each([
    ["over a range", "vancomycin-loading", "25 mg/kg", "30 mg/kg"],
    ["without a range", "magnesium-4g", "dose            4 g", "dose            5 g"],
  ])("%s, it is said, and what was stated is compared all the same", (_, recipe, was, is) => {
    isBroken.mockImplementation(() => {
      throw new Error("broken for the test");
    });
    const comparison = compared(texts, edited(texts, `recipes/${recipe}.misce`, was, is));
    const change = comparison.declarations.find((d) => d.name === recipe)!;
    expect(change.facts).toHaveLength(1);
    expect(change.consequences).toEqual([]);
    expect(change.notCompared).toEqual([expect.stringMatching(/could not be followed/)]);
    for (const form of comparisonForms) expect(comparisonReport(comparison, form)).toContain("could not be followed");
  });

  test("on one side only, the finding is told and no figure is taken for gone", () => {
    isBroken.mockRestore();
    const before = libraryOf(texts);
    for (const file of before.files()) before.findings(file);
    const again = vi.spyOn(mix!, "act").mockImplementation(() => {
      throw new Error("broken for the test");
    });
    const after = libraryOf(edited(texts, "recipes/vancomycin-loading.misce", "25 mg/kg", "30 mg/kg"));
    const [change] = compareLibraries({ before, after, ...about }).declarations;
    again.mockRestore();
    expect(change!.verdicts.map((v) => `${v.how} ${v.name}`)).toContain("appeared check-failed");
    expect(change!.consequences).toEqual([]);
    expect(change!.notCompared).toHaveLength(1);
  });
});

test("how many containers are opened is not told where the steps cannot be followed", () => {
  const vials = edited(texts, "recipes/vancomycin-loading.misce", "25 mg/kg", "25 mg/kg banded by no-bands");
  const [told] = compared(texts, vials).declarations;
  expect(told!.notCompared).toHaveLength(1);
  expect(told!.consequences.filter((c) => c.what === "number of vials")).toEqual([]);
});

test("a recipe copied with another dose is new, with what the checks say of it; one taken out is told as that", () => {
  const text = texts.get("recipes/magnesium-4g.misce")!;
  const copy = text.replace("recipe magnesium-4g", "recipe magnesium-40g").replaceAll("4 g", "40 g");
  const more = new Map([...texts, ["recipes/magnesium-40g.misce", copy]]);
  const [added, second] = compared(texts, more).declarations;
  expect(second).toBeUndefined();
  expect(added).toMatchObject({ how: "added", name: "magnesium-40g", level: "verdict" });
  expect(added?.verdicts.map((v) => v.name)).toContain("dose-outside-window");
  expect(compared(more, texts).declarations).toMatchObject([{ how: "removed", name: "magnesium-40g" }]);
});
