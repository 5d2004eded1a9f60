/** Whoever stands at the bench follows the sheet, not the recipe: what a step says of how it is done stands in its sentence. */
import { describe, expect, it, test } from "vitest";
import { allVerbs } from "../../language/bench/verbs/index.ts";
import { libraryOf, sheetFrom, textsOf } from "./sample-sheets.ts";

/** Slots that the pieces of a sentence put into words. */
const pieces: Readonly<Record<string, readonly string[]>> = {
  asAsked: ["amount", "ion", "as", "figure", "drug"],
  manner: ["pressure", "onTop", "deadSpace"],
};

/** The volume that comes of it is said, and what it was worked out from stands among the figures. */
const saidAsVolume: Readonly<Record<string, readonly string[]>> = {
  withdraw: ["figure"],
  transfer: ["amount", "ion", "as", "figure", "drug"],
  make: ["ordered"],
};

test.each(allVerbs.map((verb) => [verb.word, verb.form.text, verb.sentence.toString()] as const))(
  "%s: every part of its form is in its sentence",
  (word, form, sentence) => {
    const slots = [...form.matchAll(/<(\w+)\??:/g)].map(([, name]) => name!);
    const said = Object.entries(pieces).flatMap(([piece, names]) => (sentence.includes(piece) ? names : []));
    const known = new Set([...said, ...(saidAsVolume[word] ?? [])]);
    expect(slots.filter((slot) => !known.has(slot) && !new RegExp(`\\b${slot}\\b`).test(sentence))).toEqual([]);
  },
);

describe("a step of a sample with a word more", () => {
  const texts = textsOf("library");
  const sentences = (file: string, from: string, to: string) => {
    const path = `library/recipes/${file}.misce`;
    expect(texts[path]).toContain(from);
    const sheet = sheetFrom(libraryOf({ ...texts, [path]: texts[path]!.replace(from, to) }), file);
    return sheet.steps.map(({ sentence }) => sentence.text);
  };

  const draw = "draw 4 g from mag into syringe at equal pressure  = 8 mL";
  it.each([
    [draw, draw, "Draw 4 g (8 mL) from mag into syringe, at equal pressure."],
    [
      draw,
      "draw 4 g from mag into syringe at negative pressure  = 8 mL",
      "Draw 4 g (8 mL) from mag into syringe, at negative pressure.",
    ],
    [
      draw,
      "draw 4 g from mag into syringe dead-space included at equal pressure",
      "Draw 4 g (8 mL) from mag into syringe, at equal pressure, dead space included.",
    ],
    ["inject syringe into bag", "inject 2 mL from syringe into bag", "Inject 2 mL from syringe into bag."],
    ["inject syringe into bag", "inject dose from syringe into bag", "Inject dose from syringe (8 mL) into bag."],
    ["inject syringe into bag", "inject syringe into bag", "Inject syringe (8 mL) into bag."],
  ])("%s as %s", (from, to, sentence) => expect(sentences("magnesium-4g", from, to)).toContain(sentence));
});
