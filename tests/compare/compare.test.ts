/** Edits whose clinical effect is worked out by hand: each must stand on its level with its figures, and nothing else may. */
import { describe, expect, test } from "vitest";
import { comparisonReport } from "../../language/compare/comparison-reports.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { changeOf, compared, edited, figuresOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const magnesium = "recipes/magnesium-4g.misce";
const vancomycin = "recipes/vancomycin-loading.misce";

describe("nothing is said", () => {
  test("of the same texts", () => {
    expect(compared(texts, texts)).toMatchObject({ level: "none", exitStatus: 0, declarations: [] });
  });

  test("of layout, comments, blank lines, newlines, and the order of facts", () => {
    let after = edited(texts, magnesium, "  order {\n", "  # looked at again\n\n  order {   # the order\n");
    after = edited(after, magnesium, /( +route +intravenous\n)( +access +peripheral\n)/, "$2$1");
    after = edited(after, magnesium, /\n/g, "\r\n");
    expect(compared(texts, after)).toMatchObject({ level: "none", declarations: [] });
  });

  test("of the formatter's work on every file", () => {
    const after = new Map([...texts].map(([name, text]) => [name, formatText(text.replace(/^ +/gm, " "))]));
    expect(compared(texts, after)).toMatchObject({ level: "none", declarations: [] });
  });

  test("of equal quantities in other units", () => {
    let after = edited(texts, magnesium, "4 h", "240 min");
    after = edited(after, vancomycin, "maximum         dose 2 g", "maximum         dose 2,000 mg");
    expect(compared(texts, after)).toMatchObject({ level: "none", declarations: [] });
  });

  test("in a recipe, of new lots, which are the shelf's", () => {
    const after = edited(texts, "lots.misce", /expires \d{4}-\d\d\b/, "expires 2028-09");
    expect(compared(texts, after).declarations.map((d) => d.kind)).toEqual(["lots"]);
  });
});

test("a dose cut to half changes every figure that follows, and the stated ones no longer fit", () => {
  let after = edited(texts, magnesium, "dose            4 g per bag", "dose            2 g per bag");
  after = edited(after, magnesium, "draw 4 g", "draw 2 g");
  const change = changeOf(compared(texts, after), "magnesium-4g");
  expect(change.level).toBe("verdict");
  expect(change.facts[0]).toMatchObject({ block: "order", before: "dose 4 g per bag", after: "dose 2 g per bag" });
  expect(change.facts[0]!.figures).toEqual([
    { what: "dose", before: "4 g", after: "2 g", difference: "-2 g", percent: "-50 %", factor: "0.5 times", alarm: "" },
  ]);
  // By hand: 2 g of 500 mg/mL is 4 mL; 100 + 4 = 104 mL; 2000 / 104 = 19.23 mg/mL; 104 mL in 4 h = 26 mL/h.
  // 100 mL of 308 mOsm/L and 2 g of 246.47 g/mol in two ions: 30.8 + 16.2 mOsm in 104 mL = 452 mOsm/L.
  expect(figuresOf(change)).toEqual([
    "dose of magnesium-sulfate: 4 g → 2 g -50 %",
    "volume of step 4, draw 2 g from mag into syringe at equal pressure: 8 mL → 4 mL -50 %",
    "volume of step 8, inject syringe into bag: 8 mL → 4 mL -50 %",
    "final volume of bag: 108 mL → 104 mL -3.7 %",
    "magnesium-sulfate in bag: 4 g → 2 g -50 %",
    "concentration of magnesium-sulfate in bag: 37.04 mg/mL → 19.23 mg/mL -48.1 %",
    "osmolarity of bag, at least: 586 mOsm/L → 452 mOsm/L -22.9 %",
    "magnesium-sulfate per hour: 1 g/h → 0.5 g/h -50 %",
    "pump rate: 27 mL/h → 26 mL/h -3.7 %",
  ]);
  expect(change.verdicts.map((v) => `${v.how} ${v.name}`)).toEqual([
    "appeared claim-differs",
    "appeared title-contradicts-order",
  ]);
});

test.each([
  ["40 g", "10 times more"],
  ["4000 g", "1,000 times more"],
  ["400 mg", "10 times less"],
  ["4 mg", "1,000 times less"],
  ["4 mmol", "another kind of unit: g became mmol"],
  ["12 g", ""],
])("a dose of 4 g that becomes %s: %s", (dose, alarm) => {
  const change = changeOf(
    compared(texts, edited(texts, magnesium, "dose            4 g", `dose            ${dose}`)),
    "magnesium-4g",
  );
  expect(change.facts[0]!.figures[0]!.alarm).toBe(alarm);
});

test("a longer limit of use is a consequence and, beyond the study, a verdict", () => {
  const change = changeOf(
    compared(texts, edited(texts, magnesium, /use-within +24 h/, "use-within      9 days")),
    "magnesium-4g",
  );
  expect(figuresOf(change)[0]).toMatch(/^stated limit of use at room-temperature: 24 h → 9 days/);
  expect(change.verdicts.map((v) => v.name)).toContain("use-within-longer-than-stability");
});

test("a step taken out, put in and moved is told as that", () => {
  const without = edited(texts, magnesium, /^ +mix bag.*\n/m, "");
  expect(changeOf(compared(texts, without), "magnesium-4g").facts).toMatchObject([
    { block: "steps", how: "removed", before: "9. mix bag by inverting 10 times" },
  ]);
  expect(changeOf(compared(without, texts), "magnesium-4g").facts).toMatchObject([{ block: "steps", how: "added" }]);
  const moved = edited(texts, magnesium, /^( +disinfect mag\n)( +attach needle to syringe\n)/m, "$2$1");
  expect(changeOf(compared(texts, moved), "magnesium-4g").facts).toMatchObject([{ block: "steps", how: "moved" }]);
});

test("a stock of another content reaches the recipes that use it, by the way that leads there", () => {
  const after = edited(
    texts,
    "stock/powder-vials.misce",
    /(stock vancomycin-vial-500 \{[^}]*content +)500 mg([^}]*gives +)50 mg/,
    "$11 g$2100 mg",
  );
  const comparison = compared(texts, after);
  expect(changeOf(comparison, "vancomycin-vial-500").facts).toMatchObject([
    { how: "changed", before: "content 500 mg", after: "content 1 g" },
    { how: "changed", before: "gives 50 mg/mL", after: "gives 100 mg/mL" },
  ]);
  const change = changeOf(comparison, "vancomycin-loading");
  expect(change).toMatchObject({ how: "same", facts: [], level: "verdict" });
  // By hand: 1 g from vials of 500 mg is two of them, from vials of 1 g one.
  expect(figuresOf(change)).toContain("number of vials at weight 40 kg: 2 → 1 -50 %");
  expect(change.reachedThrough).toEqual([{ declaration: "stock vancomycin-vial-500", path: ["material vials"] }]);
  const using = [...texts.values()].filter((t) => /\bvancomycin-vial-500\b/.test(t) && t.startsWith("recipe")).length;
  expect(comparison.declarations.filter((d) => d.kind === "recipe")).toHaveLength(using);
});

test("a fact of a drug that moves no figure still names the recipes that rest on it", () => {
  const comparison = compared(
    texts,
    edited(texts, "drugs/magnesium-sulfate.misce", /high-alert +yes/, "high-alert no"),
  );
  expect(changeOf(comparison, "magnesium-4g")).toMatchObject({ level: "fact", consequences: [] });
  expect(comparisonReport(comparison, "text")).toMatch(
    /no figure and no verdict.*\n {2}through drug magnesium-sulfate: .*magnesium-4g/,
  );
});

test("a ranged order is told at its ends and where it changes most, with the safe range", () => {
  const after = edited(texts, vancomycin, "dose            25 mg/kg", "dose            30 mg/kg");
  const change = changeOf(compared(texts, after), "vancomycin-loading");
  const doses = change.consequences.filter((c) => c.what === "dose of vancomycin");
  // By hand, rounded to 250 mg: at 40 kg 1000 → 1200 → 1250 mg; at 120 kg both are capped at 2 g, so nothing is told there.
  expect(doses.find((c) => c.because === "lowest")).toMatchObject({
    at: "weight 40 kg",
    before: "1,000 mg",
    after: "1,250 mg",
    percent: "+25 %",
  });
  expect(doses.find((c) => c.because === "highest")).toBeUndefined();
  // 54.9 kg: 1372.5 → 1250 mg; 1647 → 1750 mg: the largest step up.
  expect(doses.find((c) => c.because === "changed most")).toMatchObject({
    at: "weight 54.9 kg",
    before: "1,250 mg",
    after: "1,750 mg",
    percent: "+40 %",
  });
});

describe("names", () => {
  test("a stock under another name is one rename, and no recipe is said to have changed", () => {
    const after = new Map(
      [...texts].map(([name, text]) => [name, text.replaceAll("vancomycin-vial-500", "vanco-half-gram")]),
    );
    const comparison = compared(texts, after);
    expect(comparison.declarations).toMatchObject([
      { kind: "stock", how: "renamed", formerName: "vancomycin-vial-500", name: "vanco-half-gram", facts: [] },
    ]);
  });

  test("a drug under another name is one rename, although findings speak of it by name", () => {
    // Insulin is measured in units, so that a note says which drug has no osmolarity.
    const after = new Map([...texts].map(([n, t]) => [n, t.replace(/\binsulin-soluble\b/g, "insulin-human")]));
    const told = compared(texts, after).declarations.map(({ kind, name, how, level }) => [kind, name, how, level]);
    expect(told).toEqual([["drug", "insulin-human", "renamed", "fact"]]);
  });

  test("a stock renamed with its lots and changed as well is reached under its new name alone", () => {
    const after = new Map(
      [...texts].map(([n, t]) => [
        n,
        t
          .replace(/\bmagnesium-vial-10\b/g, "magnesium-ten")
          .replace(/(stock magnesium-ten \{[^}]*strength +)500 mg/, "$150 mg"),
      ]),
    );
    expect(changeOf(compared(texts, after), "magnesium-4g").reachedThrough).toEqual([
      { declaration: "stock magnesium-ten", path: ["material mag"] },
    ]);
  });

  test("a material under another name leaves its steps the same", () => {
    const after = new Map(texts).set(magnesium, texts.get(magnesium)!.replace(/\bsyringe\b(?!-)/g, "measure"));
    expect(changeOf(compared(texts, after), "magnesium-4g").facts).toMatchObject([
      { block: "materials", before: "material syringe" },
    ]);
  });

  test("a file moved says so and is no change in meaning", () => {
    const after = new Map(texts);
    after.set("recipes/electrolytes/magnesium.misce", texts.get(magnesium)!);
    after.delete(magnesium);
    const comparison = compared(texts, after);
    expect(comparison).toMatchObject({ level: "none", exitStatus: 0 });
    expect(comparison.declarations).toMatchObject([
      { how: "same", formerFile: magnesium, file: "recipes/electrolytes/magnesium.misce" },
    ]);
  });

  test("a recipe renamed and changed is one recipe", () => {
    const after = new Map(texts).set(
      magnesium,
      texts.get(magnesium)!.replace("recipe magnesium-4g", "recipe magnesium-four").replace("4 h", "5 h"),
    );
    expect(changeOf(compared(texts, after), "magnesium-four")).toMatchObject({
      how: "renamed and changed",
      formerName: "magnesium-4g",
    });
  });
});

test("what cannot be read on a side is said, and the rest is compared", () => {
  let after = edited(texts, magnesium, "infuse-over     4 h", "infuse-over     2 h");
  after = edited(after, magnesium, "draw 4 g from mag into", "draw 4 g form mag into");
  const comparison = compared(texts, after);
  expect(comparison.notRead).toMatchObject([{ side: "after", subject: "recipe magnesium-4g" }]);
  const change = changeOf(comparison, "magnesium-4g");
  expect(change.facts[0]!.figures[0]).toMatchObject({ before: "4 h", after: "2 h" });
  expect(change.notCompared.join()).toMatch(/cannot be followed to their end after the change/);
  expect(comparisonReport(comparison, "text")).toMatch(/line that cannot be read: draw 4 g form mag into/);
});

test("a dose whose unit is not known was ordered all the same: it is not laid beside the former", () => {
  const change = changeOf(compared(texts, edited(texts, magnesium, "4 g per bag", "4 gg per bag")), "magnesium-4g");
  expect(change.consequences.filter((c) => c.what.startsWith("dose of"))).toEqual([]);
  expect(change.notCompared.join()).toContain("The dose of magnesium-sulfate cannot be worked out after the change");
});

test("every printed form carries the safety sentence, and the page loads nothing", () => {
  const comparison = compared(texts, edited(texts, magnesium, "4 g per bag", "40 g per bag"));
  for (const form of ["text", "markdown", "html", "json"] as const) {
    expect(comparisonReport(comparison, form)).toContain("Misce supports and does not replace");
  }
  const html = comparisonReport(comparison, "html");
  expect(html).not.toMatch(/<script|src=|href=/i);
  expect(html).toContain("<strong>10 TIMES MORE</strong>");
});

test("texts of the library cannot write into a comment or a page", () => {
  const after = edited(
    texts,
    magnesium,
    /title .*/,
    'title  "<img src=x onerror=alert(1)> @everyone [a](http://b) **4 g**"',
  );
  const comparison = compared(texts, after);
  expect(comparisonReport(comparison, "html")).not.toContain("<img");
  const markdown = comparisonReport(comparison, "markdown");
  expect(markdown).not.toContain("<img");
  expect(markdown).not.toMatch(/@everyone|\[a\]\(/);
});
