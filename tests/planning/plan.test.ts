/** Plans as a pharmacist asks for them: strengths kept apart, lots in the order of their expiry, what a shortage would change. */
import { describe, expect, test } from "vitest";
import { type Plan, type PlanRequest, planBatch } from "../../language/planning/plan.ts";
import { shortageOf } from "../../language/planning/shortage.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { libraryOf, textsOf } from "../sheet/sample-sheets.ts";
import { ampoule, powder, type Shelf, wardLibrary } from "./ward-library.ts";

function plan(shelf: Shelf, more: Partial<PlanRequest> = {}): Plan {
  const found = planBatch(wardLibrary(shelf), {
    recipe: "ward-dose",
    inputs: new Map(),
    bags: undefined,
    mixStrengths: false,
    ...more,
  });
  if (isSheetRefusal(found)) throw new Error(found.refusal);
  return found;
}

const twoStrengths: Shelf = {
  stocks: { weak: ampoule("10 mg/mL", "5 mL"), strong: ampoule("20 mg/mL", "5 mL") },
  uses: "weak",
  dose: "150 mg per flask",
};

describe("strengths", () => {
  test("are never mixed unasked: 3 x 50 mg fits, 2 x 100 mg leaves 50 mg", () => {
    const [drug] = plan(twoStrengths).drugs;
    const told = drug!.options.map((o) => [o.openings[0]!.counts, o.openings[0]!.waste]);
    expect(told).toEqual([
      [[{ name: "weak", count: 3 }], "0 g"],
      [[{ name: "strong", count: 2 }], "50 mg"],
    ]);
  });

  test("are mixed where asked: one of each is fewer than three", () => {
    const [drug] = plan(twoStrengths, { mixStrengths: true }).drugs;
    const [best] = drug!.options;
    expect(best!.openings[0]!.counts).toEqual([
      { name: "strong", count: 1 },
      { name: "weak", count: 1 },
    ]);
    expect(best!.openings[0]!.waste).toBe("0 g");
  });

  test("sizes of one strength go together", () => {
    const stocks = { small: ampoule("10 mg/mL", "5 mL"), large: ampoule("10 mg/mL", "20 mL") };
    const [drug] = plan({ stocks, uses: "small", dose: "240 mg per flask" }).drugs;
    expect(drug!.options).toHaveLength(1);
    expect(drug!.options[0]!.openings[0]!.counts).toEqual([
      { name: "large", count: 1 },
      { name: "small", count: 1 },
    ]);
  });
});

describe("a batch", () => {
  const shelf: Shelf = { stocks: { vial: powder("100 mg") }, uses: "vial", dose: "60 mg per flask" };

  test("of 5 shared takes 3 vials, opened anew 5", () => {
    const { drugs, materials, runs } = plan(shelf, { bags: "5" });
    const [shared, each] = drugs[0]!.options[0]!.openings;
    expect([runs, shared!.containers, shared!.waste]).toEqual([5, 3, "0 g"]);
    expect([each!.containers, each!.waste]).toEqual([5, "200 mg"]);
    expect(materials.find((m) => m.name === "source")).toMatchObject({ perRun: 1, inAll: 5 });
  });

  test("of a number that cannot be meant is refused", () => {
    for (const bags of ["0", "1.5", "many", "501"]) expect(() => plan(shelf, { bags })).toThrow(/--bags is/);
  });
});

describe("lots", () => {
  const shelf: Shelf = {
    stocks: { vial: powder("100 mg"), other: powder("50 mg") },
    lots: {
      vial: ['"LATE" expires 2028-01', '"OLD" expires 2026-10', '"SOON" expires 2026-11', '"MID" expires 2027-03-15'],
      other: ['"GONE" expires 2026-11-24'],
    },
    uses: "vial",
    dose: "60 mg per flask",
  };

  // Month and year alone stand for the last day of the month (USP, restated; practice/expiry.json): 2026-11 is good on 25 November.
  test("are used first to expire first, those out of date left", () => {
    const { lots } = plan(shelf).materials.find((m) => m.name === "source")!;
    expect(lots.use.map((l) => [l.lot, l.daysLeft])).toEqual([
      ["SOON", 5],
      ["MID", 110],
      ["LATE", 432],
    ]);
    expect(lots.leave.map((l) => l.lot)).toEqual(["OLD"]);
  });

  test("a stock with no lot in date is not planned with", () => {
    const [drug] = plan(shelf).drugs;
    expect(drug!.options.map((o) => o.stocks)).toEqual([["vial"]]);
    expect(drug!.aside).toEqual([{ stock: "other", why: "no lot in date on the shelf" }]);
  });
});

describe("a shortage", () => {
  const library = libraryOf(textsOf("library"));

  test("of a vial of the same strength in another size leaves the recipe as it is", () => {
    const found = shortageOf(library, "magnesium-vial-10");
    if (isSheetRefusal(found)) throw new Error(found.refusal);
    const recipe = found.recipes.find((r) => r.recipe === "magnesium-4g")!;
    expect(recipe.alternatives.map((a) => [a.by, a.verdict])).toEqual([["magnesium-vial-50", "works"]]);
    expect(recipe.stillWorks).toBe(true);
  });

  test("of a bag shows what another size would do to the concentration", () => {
    const found = shortageOf(library, "saline-bag-100");
    if (isSheetRefusal(found)) throw new Error(found.refusal);
    const recipe = found.recipes.find((r) => r.recipe === "magnesium-4g")!;
    const larger = recipe.alternatives.find((a) => a.by === "saline-bag-250")!;
    expect(larger.verdict).toBe("needs-changes");
    // 4 g in 250 mL and 8 mL: 15.5 mg/mL in place of the 37.04 mg/mL stated.
    expect(larger.appear.map((f) => f.message).join(" ")).toMatch(/37\.04 mg\/mL.*15\.5 mg\/mL/);
    expect(recipe.stillWorks).toBe(false);
  });

  test("changes nothing in the library that was asked", () => {
    const before = library.files().map((f) => [f, library.findings(f).length]);
    shortageOf(library, "saline-bag-250");
    expect(library.files().map((f) => [f, library.findings(f).length])).toEqual(before);
  });

  test("of what nobody declares is refused with the near name", () => {
    expect(shortageOf(library, "saline-bag-10")).toMatchObject({ refusal: expect.stringMatching(/saline-bag-100/) });
  });
});
