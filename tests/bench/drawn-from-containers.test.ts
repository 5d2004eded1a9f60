/** Recipes of the sample library with one slip in how a container is drawn from. What is told was worked out by hand. */
import { expect, test } from "vitest";
import { edited, libraryOf, sampleTexts } from "../compare/sample-library.ts";

const texts = sampleTexts();

/** Errors of one recipe, the library changed by these replacements, each of which has to be found. */
function errorsOf(recipe: string, ...changes: [file: string, from: string, to: string][]): string[] {
  const changed = changes.reduce<ReadonlyMap<string, string>>((now, change) => edited(now, ...change), texts);
  return libraryOf(changed)
    .findings(recipe)
    .filter((f) => f.severity === "error")
    .map((f) => `${f.name}: ${f.message}`);
}

const digoxin = "recipes/digoxin-40mcg.misce";

// technique-rules amp-filter-draw: what comes from a glass ampoule passes a filter, whatever container it ends up in.
test("glass in a syringe that is filled by drawing", () => {
  expect(errorsOf(digoxin)).toEqual([]);
  const plain = errorsOf(
    digoxin,
    [digoxin, "    attach filter to working\n", "    attach needle to working\n"],
    [digoxin, "    replace filter on working with needle\n", ""],
    [digoxin, "    filter      filter-needle-5um\n", ""],
  );
  expect(plain).toHaveLength(1);
  expect(plain[0]).toMatch(/^glass-not-filtered: Step \d+ brings digoxin from a glass ampoule into syringe/);
});

test("glass that passes a filter too coarse to hold it back", () => {
  const device = (pore: string) =>
    `device coarse {\n  kind   filter-needle\n  pore   ${pore}\n  gauge  18\n}\n\nrecipe `;
  const drawnThrough = (pore: string) =>
    errorsOf(digoxin, [digoxin, "recipe ", device(pore)], [digoxin, "filter-needle-5um", "coarse"]);
  expect(drawnThrough("5 micrometre")).toEqual([]);
  expect(drawnThrough("50 micrometre")).toEqual([
    expect.stringMatching(/^glass-not-filtered: .* has passed no filter of 5 micrometre or finer/),
  ]);
});

test("more than the label lets out of a reconstituted vial", () => {
  const file = "recipes/ceftriaxone-1g.misce";
  expect(errorsOf(file)).toEqual([]);
  const stock = "stock/powder-vials.misce";
  const told = errorsOf(
    file,
    [file, " vials       ceftriaxone", " vials       1 x ceftriaxone"],
    [
      stock,
      "    withdrawable  10 mL\n  }\n}\n\nstock nitroprusside",
      "    withdrawable  9 mL\n  }\n}\n\nstock nitroprusside",
    ],
  );
  expect(told).toHaveLength(2);
  expect(told[0]).toMatch(/^dose-not-delivered: .* 900 mg into bag/);
  expect(told[1]).toMatch(/^draw-beyond-content: .*10 mL.* 9 mL/);
});

// The label's 10 mL are those of its own 9.6 mL of water: after 20 mL more can be drawn, and no second vial is missing.
test("a vial reconstituted with another volume than the label's gives what was put into it", () => {
  const file = "recipes/ceftriaxone-1g.misce";
  const told = errorsOf(file, [file, "with 9.6 mL from", "with 19.6 mL from"]);
  expect(told.join("\n")).not.toMatch(/not-each-of|too-few-containers|draw-beyond-content/);
  expect(told.join("\n")).toMatch(/19\.6 mL|20 mL/);
});
