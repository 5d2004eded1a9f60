/** Edits whose report once misled: what must be said of them, and what must not. Figures worked out by hand from the samples. */
import { expect, test } from "vitest";
import { compareLibraries } from "../../language/compare/compare.ts";
import { comparisonReport } from "../../language/compare/comparison-reports.ts";
import { edited, libraryOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const before = libraryOf(texts);
const about = { names: { before: "A", after: "B" }, version: "test", notOpened: [] };
const shelf = "longest limit of use at room-temperature that policy, stability and opened products allow";
const magnesium = "recipes/magnesium-4g.misce";
const dup = (file: string, was: string | RegExp, is: string) =>
  new Map([...texts, ["recipes/second.misce", edited(texts, file, was, is).get(file)!]]);
const moved = (from: string, to: string) =>
  new Map([...texts].map(([file, text]): [string, string] => [file === from ? to : file, text]));

const cases: [name: string, after: Map<string, string>, says: string[], not: string[]][] = [
  [
    "a drug that is no longer ordered is told, also where the steps cannot be followed any more",
    edited(texts, "recipes/potassium-magnesium.misce", /.*additive +magnesium.*\n/, ""),
    ["dose of magnesium-sulfate: 2 g → not ordered"],
    [],
  ],
  [
    "so are both drugs where one took the place of the other",
    edited(texts, magnesium, "drug            magnesium-sulfate", "drug potassium-chloride"),
    ["dose of magnesium-sulfate: 4 g → not ordered", "dose of potassium-chloride: not ordered → 4 g"],
    [],
  ],
  [
    "a dose that cannot be read is not taken for none",
    edited(texts, magnesium, "dose            4 g per", "dose four g per"),
    ["The dose of magnesium-sulfate cannot be worked out after the change", "cannot be read: dose four g per bag"],
    ["not ordered"],
  ],
  [
    "a limit without a row of stability is not told as a longer one",
    edited(texts, "recipes/nitroprusside-50mg.misce", /.*protect bag.*\n/, ""),
    [`${shelf}: 24 h → not known: no row of stability covers it (4 days by the other limits)`],
    ["+300 %"],
  ],
  [
    "a place that is no longer spoken of has no longest limit to compare",
    edited(texts, "recipes/ceftriaxone-1g-batch.misce", /.*10 days at refrigerator\n/, ""),
    ["stated limit of use at refrigerator: 10 days → none"],
    ["longest limit of use at refrigerator"],
  ],
  [
    // 12 mL/h × 60 min = 720 mL/h.
    "an exchanged unit has its factor beside it",
    edited(texts, "recipes/epidural-levobupivacaine-fentanyl.misce", "12 mL/h", "12 mL/min"),
    ["(+708 mL/h, +5900 %, 60 times, THE SAME FIGURE IN ANOTHER UNIT: mL/h became mL/min)"],
    [],
  ],
  [
    "an amount that is its own size is said once",
    edited(texts, "recipes/magnesium-8mmol.misce", "8 mmol of magnesium", "8 g"),
    ["8 mmol (1.971728 g) → 8 g  ("],
    ["8 g (8 g)"],
  ],
  [
    "the rounding of a pump is no change of what runs in an hour",
    edited(texts, "stock/vials.misce", /(stock magnesium-vial-10 \{[^}]*strength +)500/, "$150"),
    ["recipe potassium-magnesium", "pump rate: 126.8 mL/h → 131.3 mL/h"],
    ["mmol/h (186.4", "g/h (250.0"],
  ],
  [
    "a second recipe of one name is told of the one that no longer counts",
    dup(magnesium, "inverting 10", "inverting 12"),
    ["error declared-twice appeared: `magnesium-4g` is already the name of a recipe"],
    [],
  ],
  [
    "a file under another name is one line, whatever stands in it",
    moved("references.misce", "refs.misce"),
    [
      "Nothing changed in meaning",
      "Moved to another file, and the same\n  from references.misce to refs.misce: reference ",
    ],
    ["reference vasopressin-record moved"],
  ],
];

test.each(cases)("%s", (_, after, says, not) => {
  const text = comparisonReport(compareLibraries({ before, after: libraryOf(after), ...about }), "text");
  for (const words of says) expect(text).toContain(words);
  for (const words of not) expect(text).not.toContain(words);
});
