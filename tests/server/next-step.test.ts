/**
 * The step that is likely next, in recipes of the sample library as they stand half written. That the second drug of a bag is worked
 * like the first, with what has not been used, is common practice.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { completionsAt } from "../../language/answers/completion.ts";
import { libraryOf } from "./sample-library.ts";

const recipes = "samples/library/recipes";
const twoDrugs = `${recipes}/phosphate-calcium.misce`;

/** Labels offered behind the text before `mark` (or before its last occurrence), with `typed` written there. */
function offered(file: string, mark: string, typed = "", last = false): string[] {
  const library = libraryOf((path) => path !== file);
  const text = readFileSync(file, "utf8");
  const cut = last ? text.lastIndexOf(mark) : text.indexOf(mark);
  if (cut < 0) throw new Error(`"${mark}" does not stand in ${file}`);
  const begun = text.slice(0, cut) + typed;
  library.change(file, begun);
  return completionsAt(library, file, begun.length, "any").map((s) => s.label);
}

test.each([
  ["disinfect calc", "", "disinfect calc"],
  ["attach needle-2", "attach needle-2 ", "attach needle-2 to syringe-2"],
  ["draw 2 g", "draw ", "draw 2 g from calc into syringe-2 at equal pressure"],
  ["draw 2 g", "draw 3 g ", "draw 3 g from calc into syringe-2 at equal pressure"],
  ["inject syringe-2", "", "inject syringe-2 into bag"],
])("the second drug, before `%s` with `%s` written: %s", (mark, typed, wanted) => {
  expect(offered(twoDrugs, mark, typed)[0]).toBe(wanted);
});

test("what is opened once is not opened again", () => {
  const lines = offered(`${recipes}/furosemide-50mg.misce`, "expel air");
  expect(lines.filter((l) => /^(open|tap) ./.test(l))).toEqual([]);
});

test("a list goes on from the names that stand in it", () => {
  expect(offered(twoDrugs, "check label", "check label and expiry of phos, ")).toContain(
    "check label and expiry of phos, calc, bag",
  );
});

test("the container that is labelled is the one that is described", () => {
  const syringe = offered(`${recipes}/ceftriaxone-300mg-syringe.misce`, "preparation syringe");
  expect(syringe.find((l) => l.startsWith("preparation "))).toBe("preparation syringe {");
});

test("a word whose values differ stands alone first, one that is nearly always the same with its value", () => {
  const order = offered(twoDrugs, "infuse-over");
  expect(order.indexOf("infuse-over")).toBeLessThan(order.findIndex((l) => /^infuse-over ./.test(l)));
  const end = offered(twoDrugs, "appearance");
  expect(end[0]).toBe('appearance "clear, colourless, free of particles"');
});

test("a line ends as such lines do, whatever its figures and names", () => {
  expect(offered(twoDrugs, "additive        calcium", "additive calcium-gluconate 3 g ")[0]).toBe("per bag");
});

test("the ordered thing after which a material is called stands first", () => {
  expect(offered(twoDrugs, "phos        gly", "phos ")[0]).toBe("glycerophosphate-vial");
  expect(offered(twoDrugs, "bag         glu", "bag ")[0]).toBe("glucose-bag-250");
});

test("a figure without its unit is not given another one's, and no drug is named that is not ordered", () => {
  const file = `${recipes}/magnesium-4g.misce`;
  expect(offered(file, "draw 4 g", "draw 4").filter((l) => /^draw 4 mc?g/.test(l))).toEqual([]);
  const lines = offered(file, "draw 4 g", "draw 4 g ");
  expect(lines[0]).toBe("draw 4 g from mag into syringe at equal pressure");
  expect(lines.filter((l) => l.includes("ketamine"))).toEqual([]);
});

test("within a name that stands already, what the order asks for stands first", () => {
  const file = `${recipes}/magnesium-4g.misce`;
  const library = libraryOf(() => true);
  const at = readFileSync(file, "utf8").indexOf("saline-bag-100") + 4;
  expect(completionsAt(library, file, at, "any")[0]?.label).toBe("saline-bag-100");
});

test("a second syringe is offered beside the first, of the same kind and behind what is not there yet", () => {
  const file = `${recipes}/potassium-40meq.misce`;
  const lines = offered(file, "    syringe     syringe-20mL", "    syringe     syringe-20mL\n    s");
  expect(lines).toContain("syringe-2 syringe-20mL");
  const first = lines.indexOf("syringe-2 syringe-20mL");
  expect(lines.slice(0, first).every((l) => !/-2 /.test(l))).toBe(true);
  // A third, where two are there; stock is not offered twice, since one of each is taken as often as needed.
  const third = offered(
    file,
    "    syringe     syringe-20mL",
    "    syringe  syringe-20mL\n    syringe-2  syringe-10mL\n    s",
  );
  expect(third).toContain("syringe-3 syringe-20mL");
  expect(third).toContain("syringe-3 syringe-10mL");
  expect(third.filter((l) => /^(bag|pot\w*|kcl)-2 /.test(l))).toEqual([]);
});

// 4 g of 500 mg/mL is 8 mL; with the 100 mL of the bag 108 mL, and 4,000 mg in them 37.04 mg/mL.
test.each([
  ["", ["concentration 37.04 mg/mL"]],
  ["volume ", ["108 mL"]],
  ["nominal-concentration ", []],
  ["filled-weight ", []],
])("a preparation begun with `%s` is offered its own figures and none of another's", (typed, own) => {
  const lines = offered(`${recipes}/magnesium-4g.misce`, "concentration   37.04", typed);
  const figures = lines.filter((l) => /^(concentration |nominal-concentration |volume |filled-weight |)[0-9]/.test(l));
  expect(figures.sort()).toEqual(own);
});
