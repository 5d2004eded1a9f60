/** Cautions stand only beside steps of which they speak: common practice. Rows: technique-rules no-series, amp-filter-one-way, vial-coring. */
import { expect, it } from "vitest";
import { example, powderExample } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { libraryOf, sheetFrom, textsOf } from "./sample-sheets.ts";

const samples = libraryOf(textsOf("library"));
const containment = libraryOf(textsOf("library-containment"));

/** The cautions beside each step whose sentence begins so. */
function beside(sentence: string, recipe: string, library: Library): string[] {
  const steps = sheetFrom(library, recipe).steps.filter((s) => s.sentence.text.startsWith(sentence));
  if (steps.length === 0) throw new Error(`no step of ${recipe} says ${sentence}`);
  return steps.map((s) => s.cautions.map((c) => c.text).join(" "));
}

function ofText(text: string): Library {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  return library;
}

it("two syringes joined are no bags in series, a set on a bag is beside one", () => {
  for (const said of beside("Connect", "digoxin-40mcg", samples)) expect(said).not.toContain("series");
  const set = ofText(
    example(
      ["    needle       needle-18-gauge\n", "    needle       needle-18-gauge\n    set          giving-set\n"],
      ["    seal bag\n", "    connect set to bag\n    seal bag\n"],
    ),
  );
  for (const said of beside("Connect", "magnesium-4g", set)) expect(said).toContain("series");
});

it("a connector that comes off goes into no sharps box, a needle does", () => {
  for (const said of beside("Remove join", "digoxin-40mcg", samples)) expect(said).not.toContain("sharps");
  const needle = ofText(
    example([
      "    replace filter on syringe with needle\n",
      "    remove filter from syringe\n    attach needle to syringe\n",
    ]),
  );
  for (const said of beside("Remove filter", "magnesium-4g", needle)) expect(said).toContain("sharps");
});

it("a filter that is changed is spoken of, a needle changed for a needle has none", () => {
  for (const said of beside("Replace", "magnesium-4g", ofText(example()))) expect(said).toContain("filter");
  const needles = ofText(
    powderExample(
      ["    thin         needle-21-gauge\n", "    thin         needle-21-gauge\n    thick        needle-18-gauge\n"],
      ["    disinfect sack\n", "    replace thin on measure with thick\n    disinfect sack\n"],
      ["    keep vial, wfi, thin,", "    keep vial, wfi, thin, thick,"],
    ),
  );
  for (const said of beside("Replace", "vancomycin-500mg", needles)) expect(said).not.toContain("filter");
});

it("a stopper is entered with the bevel up by a needle, not by a closed transfer device", () => {
  for (const said of beside("Draw", "vancomycin-500mg", ofText(powderExample()))) expect(said).toContain("bevel up");
  for (const said of beside("Draw", "paclitaxel-300mg", containment)) expect(said).not.toContain("bevel");
});

// USP <797>: what is entered is wiped before each entry; within one step only the sheet can say so.
it("a vial from which the next syringe is filled is wiped again, one that a single syringe goes into is not spoken of", () => {
  const magnesium = samples.text(samples.files().find((file) => file.endsWith("recipes/magnesium-4g.misce"))!)!;
  const pair = magnesium
    .replace("recipe magnesium-4g", "recipe magnesium-pair")
    .replace("    syringe     syringe-10mL", "    syringe     2 x syringe-10mL")
    .replace("draw 4 g from mag into syringe", "draw 2 g from mag into each of syringe");
  const library = libraryOf(textsOf("library"));
  library.open("recipes/pair.misce", pair);
  for (const said of beside("Draw 2 g", "magnesium-pair", library)) expect(said).toContain("Wipe the stopper or port");
  for (const said of beside("Draw 4 g", "magnesium-4g", samples)) expect(said).not.toContain("Wipe");
});
