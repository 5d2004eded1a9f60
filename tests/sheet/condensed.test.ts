/** A sheet is no longer than it need be, and says names and strengths as its reader does. */
import { describe, expect, it, test } from "vitest";
import type { Recipe } from "../../language/model/declaration.ts";
import { labelColumns } from "../../language/sheet/label-html.ts";
import { inPrintedNames } from "../../language/sheet/product.ts";
import { allSaid } from "../../language/sheet/said.ts";
import type { Label } from "../../language/sheet/sheet.ts";
import { libraryOf, sheetFrom, type Texts, textsOf } from "./sample-sheets.ts";

const texts = textsOf("library");
const library = libraryOf(texts);

function changed(recipe: string, ...changes: [from: string, to: string][]): Texts {
  const file = Object.keys(texts).find((f) => f.endsWith(`/${recipe}.misce`))!;
  const text = changes.reduce((sum, [from, to]) => {
    if (!sum.includes(from)) throw new Error(`${recipe} does not hold ${from}`);
    return sum.replaceAll(from, to);
  }, texts[file]!);
  return { ...texts, [file]: text };
}

const strengths = (from: ReturnType<typeof libraryOf>, recipe: string) =>
  sheetFrom(from, recipe)
    .labels[0]!.lines.filter((l) => l.rows.includes("label-actives"))
    .map((l) => l.value.text);

describe("a strength on a label stands in the unit of its amount (common practice: mg and mcg are not to be compared)", () => {
  const recipe = "phenylephrine-10mg-500mL";
  const claim = /^ +concentration .*\n/m.exec(texts[`library/recipes/${recipe}.misce`]!)![0];

  it("as long as one nought at most follows the point: 10 mg in 501 mL is 0.01996 mg/mL", () => {
    expect(strengths(libraryOf(changed(recipe, [claim, ""])), recipe)).toEqual(["10 mg (0.01996 mg/mL)"]);
  });

  it("and where the author, or the number, asks for the smaller unit, the amount is said in both: 10 mg are 10,000 mcg", () => {
    expect(strengths(library, recipe)).toEqual(["10 mg = 10,000 mcg (19.96 mcg/mL)"]);
    // 0.1 mL and 500 mL: 0.002 mg/mL, to four figures.
    const thin = libraryOf(
      changed(recipe, [claim, ""], ["10 mg per bag", "1 mg per bag"], ["draw 10 mg", "draw 1 mg"]),
    );
    expect(strengths(thin, recipe)).toEqual(["1 mg = 1,000 mcg (2 mcg/mL)"]);
  });

  it("as with units and milliunits", () => {
    expect(strengths(library, "oxytocin-10-units")).toEqual(["10 units = 10,000 milliunits (9.99 milliunits/mL)"]);
  });

  it("grams beside mg/mL are how packs say it", () => {
    expect(strengths(library, "magnesium-4g")).toEqual(["4 g (37.04 mg/mL)"]);
  });

  it("on no sample does a figure have more than one nought behind the point, or end in one", () => {
    const all = (library.ofKind("recipe") as Recipe[])
      .map((r) => r.name.name)
      .filter((name) => name !== "vancomycin-loading")
      .flatMap((name) => strengths(library, name));
    expect(all.length).toBeGreaterThan(50);
    expect(all.filter((text) => /\b0\.00|\.\d*0(?!\d)/.test(text))).toEqual([]);
  });
});

describe("names of declarations", () => {
  const { lookup } = library.surroundings();
  const printed = (text: string) => inPrintedNames(text, lookup, new Map([["water-for-injection", 1]]));

  it("are said as the library prints them", () => {
    expect(printed("but magnesium-sulfate in sodium-chloride-0.9, from saline-bag-500.")).toBe(
      "but magnesium sulfate heptahydrate in sodium chloride 0.9 % w/v, from sodium chloride 0.9 % w/v (500 mL bag).",
    );
    expect(printed('(kestrel-guide "electrolytes")')).toBe(
      '(Guide to injectable medicines of the Kestrel Quay Infirmary "electrolytes")',
    );
  });

  it("stay in quoted text of the recipe, as names of materials, and within longer words", () => {
    for (const text of ['"magnesium-sulfate"', "water-for-injection", "x-magnesium-sulfate"])
      expect(printed(text)).toBe(text);
    // Marks of a screen are quotation marks on paper.
    expect(printed("`drug magnesium-sulfate`")).toBe("“drug magnesium-sulfate”");
  });

  it("appear on no sheet of the samples where a printed name exists", () => {
    const declared = ["drug", "fluid", "stock", "reference"] as const;
    const names = new Set(declared.flatMap((kind) => library.ofKind(kind).map((d) => d.name.name)));
    const hyphened = [...names].filter((n) => n.includes("-"));
    for (const { name } of library.ofKind("recipe") as Recipe[]) {
      if (name.name === "vancomycin-loading") continue;
      const sheet = sheetFrom(library, name.name);
      const materials = new Set(sheet.materials.flatMap((m) => m.name.split(", ")));
      const shown = allSaid(sheet)
        .filter((s) => s.from.kind !== "time")
        .flatMap((s) => s.text.match(/[a-z]\w*(?:[.-]\w+)*/g) ?? []);
      expect(shown.filter((w) => hyphened.includes(w) && !materials.has(w) && w !== sheet.recipe)).toEqual([]);
    }
  });
});

test("the limits known are of the lots taken, not of those that stay on the shelf", () => {
  const known = (lots: [string, string[]][]) =>
    sheetFrom(library, "magnesium-4g", { lots: new Map(lots) })
      .beyondUse[0]!.known.map((k) => k.said.text)
      .join("\n");
  // On the shelf of samples/library/lots.misce: KQ-4692 to 2027-06-22, KQ-4703 to 2028-05-22.
  expect(known([])).toContain("2028-05-22 (expiry as printed)");
  expect(known([["mag", ["KQ-4692"]]])).toMatch(
    /2027-06-22 \(expiry as printed\), by magnesium .* lot KQ-4692, as taken/,
  );
  expect(known([["mag", ["KQ-4692"]]])).not.toContain("2028-05-22");
  expect(known([["mag", ["KQ-4703", "KQ-4692"]]])).not.toContain("2028-05-22");
});

describe("what is not printed twice", () => {
  const sheet = sheetFrom(library, "magnesium-4g");

  it("a dose that only repeats the order is no figure to work out; it stands with the concentration", () => {
    expect(sheet.figures.filter((f) => f.isChecked).map((f) => f.label.text)).toEqual([
      "Step 4, draw",
      "Volume in bag",
      "Concentration of magnesium sulfate heptahydrate in bag",
    ]);
    expect(sheet.figures.find((f) => f.label.text.startsWith("Conc"))!.working[0]!.text).toBe("as ordered: 4 g");
  });

  it("what is left in a vial stands with what is kept: 8 mL of 10 mL leave 2 mL", () => {
    expect(sheet.keep.find((k) => k.name === "mag")!.left?.text).toBe("2 mL");
  });

  it("a dose by weight is worked out", () => {
    const of = sheetFrom(library, "vancomycin-loading", { inputs: new Map([["weight", "62.3kg"]]) });
    expect(of.figures[0]!.working.map((w) => w.text).join()).toContain("25 mg/kg × 62.3 kg = 1,557.5 mg");
  });

  it("devices of one kind are one line, with how many", () => {
    const row = sheetFrom(library, "phosphate-calcium").materials.find((m) => m.name.includes("needle-3"))!;
    expect([row.name, row.count.text]).toEqual(["needle-3, needle-1, needle-2", "3 pieces"]);
  });

  it("drugs that allow the same time are one line", () => {
    const known = sheetFrom(library, "potassium-calcium").beyondUse[0]!.known.map((k) => k.said.text);
    const starts = known.map((text) => text.split(", by ")[0]);
    expect(new Set(starts).size).toBe(starts.length);
  });
});

describe("a label of many ingredients", () => {
  const label = sheetFrom(library, "magnesium-4g").labels[0]!;
  const active = label.lines.find((l) => l.rows.includes("label-actives"))!;
  const of = (count: number): Label => ({
    ...label,
    lines: label.lines.flatMap((l) => (l === active ? Array.from({ length: count }, () => active) : [l])),
  });
  const listed = (l: Label) => l.lines.filter(({ kind }) => kind !== "name" && kind !== "warning");

  it.each([1, 5])("keeps one column for %i", (count) => {
    expect(labelColumns(of(count))).toEqual([listed(of(count))]);
  });

  it.each([6, 12])("sets what follows %i ingredients in two columns, and loses no line", (count) => {
    const columns = labelColumns(of(count));
    expect(columns).toHaveLength(3);
    expect(columns[0].at(-1)).toBe(active);
    expect(columns.flat()).toEqual(listed(of(count)));
  });
});
