/** Names and blocks that changed are told as that, and never as figures that came and went. Expected by hand from the recipes. */
import { expect, test } from "vitest";
import { comparisonReport } from "../../language/compare/comparison-reports.ts";
import { changeOf, compared, edited, figuresOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const magnesium = "recipes/magnesium-4g.misce";
const loading = "recipes/vancomycin-loading.misce";
const statedOf = (after: ReadonlyMap<string, string>, name: string) => {
  const change = changeOf(compared(texts, after), name);
  return [change.level, ...change.facts.map((f) => [f.how, f.before, f.after].join(" | "))];
};

test("a worked example under another title, and one that also expects another figure", () => {
  const renamed = edited(texts, loading, "adult of 60 kg", "grown-up of 60 kg");
  const title = 'changed | example "adult of 60 kg" | example "grown-up of 60 kg"';
  expect(statedOf(renamed, "vancomycin-loading")).toEqual(["fact", title]);
  expect(statedOf(edited(renamed, loading, "expect  dose 1.5 g", "expect  dose 1.25 g"), "vancomycin-loading")).toEqual(
    ["verdict", title, "changed | expect dose 1.5 g | expect dose 1.25 g"],
  );
});

test("an example that says something else is another one", () => {
  const other = edited(
    texts,
    loading,
    /"adult of 60 kg" \{[^}]*\}/,
    '"child" {\n    weight  44 kg\n    expect  dose 1 g\n    expect  draw from vials 20 mL\n  }',
  );
  expect(statedOf(other, "vancomycin-loading").map((line) => line.split(" ")[0])).toEqual([
    "fact",
    ...Array(4).fill("removed"),
    ...Array(4).fill("added"),
  ]);
});

test("an intermediate that is called otherwise", () => {
  const after = edited(texts, "recipes/midazolam-300mcg.misce", "intermediate midazolam-200", "intermediate diluted");
  expect(statedOf(after, "midazolam-300mcg")).toEqual([
    "fact",
    "changed | intermediate midazolam-200 | intermediate diluted",
  ]);
});

test("a finished container under another name keeps its limits of use", () => {
  const after = edited(texts, magnesium, /(?<![\w-])bag(?![\w-])/g, "sack");
  expect(figuresOf(changeOf(compared(texts, after), "magnesium-4g"))).toEqual([]);
});

test("a copy in another file is new, and the first stays where it is", () => {
  const after = new Map([["recipes/a-copy.misce", texts.get(magnesium)!], ...texts]);
  const told = compared(texts, after).declarations.map((d) => [d.file, d.how, d.formerFile, d.verdicts.length > 0]);
  expect(told).toHaveLength(2);
  expect(told).toContainEqual(["recipes/a-copy.misce", "added", undefined, true]);
  // Either may be the one that is meant: both are told.
  expect(told).toContainEqual([magnesium, "same", undefined, true]);
});

test("most containers of a batch keep their name where one comes out otherwise", () => {
  const batch = "recipes/ceftriaxone-1g-batch.misce";
  const after = edited(edited(texts, batch, "4 x bags", "5 x bags"), batch, "4 x saline-bag-50", "5 x saline-bag-50");
  const figures = figuresOf(changeOf(compared(texts, after), "ceftriaxone-1g-batch"));
  expect(figures.filter((f) => /final volume|number of other/.test(f))).toEqual([
    "number of other bags made:  → 1",
    // 50 mL less the 10 mL withdrawn, and nothing left to inject.
    "final volume of other bags:  → 40 mL",
  ]);
});

test("the first sentence parts what was edited from what only follows", () => {
  const first = (after: ReadonlyMap<string, string>) =>
    comparisonReport(compared(texts, after), "text").split("\n")[0]!;
  expect(first(edited(texts, "site.misce", "dose 5 %", "dose 3 %"))).toBe(
    "1 declaration changed between A and B, which reaches 52 more: 1 stated fact.",
  );
  expect(first(edited(texts, magnesium, "recipe magnesium-4g", "recipe mag-four"))).toBe(
    "1 declaration changed between A and B: nothing but names.",
  );
  expect(first(edited(texts, magnesium, "    route ", "    Route "))).toBe(
    "1 declaration says the same in A and in B, but something else follows: 1 verdict of the checks.",
  );
});

test("words that are the same and name something else are told as that", () => {
  const after = edited(texts, "stock/vials.misce", "stock magnesium-vial-10", "stock mag-vial");
  expect(comparisonReport(compared(texts, after), "text")).toContain(
    "materials: mag magnesium-vial-10: the same words, but a name in them stands for something else, or for nothing",
  );
});
