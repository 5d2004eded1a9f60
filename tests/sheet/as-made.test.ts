/**
 * The sheet against how a thing is made: each container of a series against its own order, a large volume in loads of the syringe, what
 * tubing carries, which nobody measures, and the filter that must not stand on the line. Common practice.
 */
import { describe, expect, it } from "vitest";
import { explainFigures } from "../../language/answers/explain.ts";
import { example } from "../../language/checks/example.ts";
import type { Library } from "../../language/library.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { readPages } from "../spec/pages.ts";
import { libraryOf, sheetFrom } from "./sample-sheets.ts";

/** A case of the language by example, as a library of its own. */
function specCase(page: string, recipe: string): Library {
  const cases = readPages().find((p) => p.name.startsWith(page))!.cases;
  const found = cases.find((c) => c.text.includes(`recipe ${recipe} {`))!;
  return libraryOf({ "case.misce": `${found.given}${found.text}` });
}

function workings(library: Library, recipe: string): Map<string, string[]> {
  const found = explainFigures(library, { recipe, inputs: new Map(), figure: undefined });
  if (isSheetRefusal(found)) throw new Error(found.refusal);
  return new Map(found.orders[0]!.figures.map((f) => [f.label, [f.text, ...f.lines.map((l) => l.text)]]));
}

describe("a series of dilutions", () => {
  // 25 mcg/mL × 9 mL and 2.5 mcg/mL × 10 mL.
  it("holds each container against its own order, and not against that of the first", () => {
    const found = workings(specCase("preparations", "digoxin-series"), "digoxin-series");
    expect(found.get("digoxin in strong")).toEqual(["225 mcg", "as ordered: 225 mcg"]);
    expect(found.get("digoxin in weak")).toEqual(["25 mcg", "as ordered: 25 mcg"]);
  });
});

describe("the labels of a series", () => {
  it("name each container, and each of a set with its number", () => {
    const library = specCase("kinds-of-preparation", "penicillin-series");
    const { labels, made } = sheetFrom(library, "penicillin-series");
    expect(made.text).toBe("1 strong and 1 weak");
    const named = labels.map(({ lines }) => lines.find((l) => l.label === "Container")?.value.text);
    expect(named).toEqual(["strong (1 of 2 in all)", "weak (2 of 2 in all)"]);
  });
});

describe("an infusor filled from a bag", () => {
  const library = specCase("preparations", "vancomycin-pump");

  it("says in how many loads of the syringe", () => {
    const rows = sheetFrom(library, "vancomycin-pump").steps.flatMap((row) => row.detail.map((said) => said.text));
    expect(rows).toContain("in 3 loads: 30 mL + 30 mL + 30 mL");
  });

  it("does not look as if what tubing carried had been measured", () => {
    const lines = workings(library, "vancomycin-pump").get("Worst case of vancomycin in pump")!;
    expect(lines[0]).toMatch(/^[\d.,]+ mg to [\d.,]+ mg, what tubing moves left aside$/);
    expect(lines).toContain(
      "not counted: 80 mL in step 11, through tubing, where nothing says how exactly it is measured",
    );
  });
});

describe("a bag filled through tubing", () => {
  // Diluent into the finished bag: how much drug is in it is measured all the same.
  it("leaves the dose as it is where tubing carries diluent alone", () => {
    const lines = workings(specCase("kinds", "albumin-5-percent"), "albumin-5-percent").get(
      "Worst case of albumin in bag",
    )!;
    expect(lines.filter((l) => l.startsWith("not counted"))).toHaveLength(1);
  });
});

describe("the label", () => {
  const light = "  light          not-sensitive\n";
  const said = (...changes: [string, string][]) =>
    sheetFrom(libraryOf({ "case.misce": example(...changes) }), "magnesium-4g").labels[0]!.lines.map(
      (l) => l.value.text,
    );

  it("says which filter on the line holds the drug back", () => {
    const below: [string, string] = [light, `${light}  in-line-filter never below 1.2 micrometre\n`];
    const words = "Not through an in-line filter finer than 1.2 micrometre: magnesium sulfate heptahydrate";
    expect(said(below)).toContain(words);
    const any: [string, string] = [light, `${light}  in-line-filter never\n`];
    expect(said(any)).toContain("Not through an in-line filter: magnesium sulfate heptahydrate");
    const ordered: [string, string] = [
      "    infuse-over     4 h\n",
      "    infuse-over     4 h\n    in-line-filter  5 micrometre\n",
    ];
    expect(said(below, ordered)).not.toContain(words);
    expect(said(below, ordered)).toContain("Give through an in-line filter of 5 micrometre");
  });
});
