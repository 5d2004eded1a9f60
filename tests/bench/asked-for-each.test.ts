/** The offer to write a drawn volume as an amount of drug: of a set each syringe is asked for its own, never for the sum. */
import { expect, test } from "vitest";
import { refactoringsAt } from "../../language/answers/refactorings.ts";
import { example } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

test("8 mL for each of two syringes are 4 g each, and 16 mL together", () => {
  const text = example(
    ["    syringe      syringe-10mL", "    syringe      2 x syringe-10mL"],
    ["    mag          magnesium-ampoule", "    mag          2 x magnesium-ampoule"],
    ["draw 4 g from mag into syringe  = 8 mL", "draw 8 mL from mag into each of syringe"],
    ["    inject syringe into bag\n", ""],
  );
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  const at = text.indexOf("draw 8 mL");
  const offer = refactoringsAt(library, "a.misce", at, at).find(({ title }) => title.startsWith("Ask for"));
  expect(offer?.title).toBe("Ask for 4 g in place of 8 mL, and state the volume");
  expect(offer?.edits.map((edit) => edit.text)).toEqual(["4 g", "  = 16 mL"]);
});
