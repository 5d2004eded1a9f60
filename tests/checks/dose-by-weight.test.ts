/**
 * An order by weight whose dose is a slip of the point or the unit: one root, and no finding that only follows from it. A finding that
 * is met where the dose is in order is told for all at which it is met. What a careful colleague would say: common practice.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { findingsOf } from "./findings-of.ts";

const byWeight = (dose: string, ...more: [string, string][]) =>
  example(
    [
      "    dose            4 g per bag\n",
      `    weight          20 kg to 80 kg in steps of 10 kg\n    dose            ${dose} per bag\n`,
    ],
    ["draw 4 g from mag into syringe  = 8 mL", "draw dose from mag into syringe"],
    ["Magnesium sulfate 4 g in", "Magnesium sulfate in"],
    ["magnesium-4g {", "magnesium-by-weight {"],
    ["    concentration  37.04 mg/mL\n", ""],
    ...more,
  );
const names = (text: string) => findingsOf(text).map((f) => f.name);

describe("the window broken for a part of the range, or all of it", () => {
  // 50 mg/kg, 1 g to 4 g, is within the window of 500 mg to 10 g.
  test.each(["500 mg/kg", "50,000 mg/kg", "5 mg/kg", "0.05 mg/kg"])("%s", (dose) => {
    const found = names(byWeight(dose));
    expect(found).toContain("dose-outside-window");
    for (const echo of ["concentration-above-limit", "rate-above-limit", "too-small-to-measure", "nothing-to-push"])
      expect(found).not.toContain(echo);
    expect(found.length).toBeLessThanOrEqual(3);
  });

  test("kept quiet by the site, what follows from it is told", () => {
    const quiet: [string, string] = [
      "  role           pharmacist\n",
      '  role           pharmacist\n  severity       dose-outside-window note\n    because "told on paper"\n',
    ];
    expect(names(byWeight("500 mg/kg", quiet))).toContain("rate-above-limit");
  });

  test("met for a weight at which the dose is in order, a limit is told for all weights", () => {
    // 150 mg/kg: 10 g is passed above 66 kg, 4 g/h already above 53 kg (12 g and 8 g over 2 h).
    const found = findingsOf(
      byWeight(
        "150 mg/kg",
        ["infuse-over     4 h", "infuse-over     2 h"],
        ["rate           up to 9 g/h", "rate           up to 4 g/h"],
      ),
    );
    const rate = found.find((f) => f.name === "rate-above-limit");
    expect(found.map((f) => f.name)).toContain("dose-outside-window");
    expect(rate?.message).toContain("60 kg to 80 kg");
  });
});

describe("the loading dose of the sample library, capped and rounded", () => {
  const root = new URL("../../samples/library/", import.meta.url).pathname;
  const filesIn = (folder: string): string[] =>
    readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? filesIn(path) : path.endsWith(".misce") ? [path] : [];
    });
  const library = new Library({ asOf: "2026-11-25" });
  for (const file of filesIn(root)) library.open(file, readFileSync(file, "utf8"));
  const file = join(root, "recipes/vancomycin-loading.misce");
  const right = library.text(file)!;

  test.each([
    ["250 mg/kg", ["example-differs"]],
    ["2.5 mg/kg", ["dose-rounded-to-nothing", "rate-below-limit", "example-differs"]],
    ["0.025 mg/kg", ["dose-rounded-to-nothing", "example-differs"]],
  ])("%s for 25 mg/kg", (dose, expected) => {
    library.change(file, right.replace("25 mg/kg", dose));
    expect(library.findings(file).map((f) => f.name)).toEqual(expected);
  });

  test("a claim that is wrong beside a good dose is told as ever", () => {
    library.change(file, right.replaceAll("= 20 mL to 40 mL", "= 20 mL to 50 mL"));
    expect(library.findings(file).map((f) => f.name)).toContain("claim-differs");
  });
});
