/**
 * One name for two declarations is an error at both places, and in each recipe of another file that takes its figures from one of
 * them: whoever checks one file alone would take a guess for certain. The stock is invented.
 */
import { describe, expect, test } from "vitest";
import { example, standardLibrary } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";

const asOf = "2026-11-25";
const cut = standardLibrary.indexOf("\nrecipe ");
const recipe = example().slice(example().indexOf("\nrecipe ") + 1);
const rest = standardLibrary.slice(0, cut + 1);
const ampoule = /^stock magnesium-ampoule \{[^}]*\n\}\n/m.exec(rest)![0];

function twiceIn(texts: Record<string, string>): Record<string, string[]> {
  const library = new Library({ asOf });
  for (const [file, text] of Object.entries(texts)) library.open(file, text);
  return Object.fromEntries(
    library.files().map((file) => [
      file,
      library
        .findings(file)
        .filter((f) => f.name === "declared-twice")
        .map((f) => `${f.message} ${f.related.map((r) => `${r.message}: ${r.span.file}`).join(", ")}`),
    ]),
  );
}

describe("a stock that is declared twice", () => {
  const texts = { "b.misce": recipe, "library.misce": rest };

  test("once is no fault", () => {
    expect(twiceIn(texts)).toEqual({ "b.misce": [], "library.misce": [] });
  });

  test("is told at both places and in the recipe, whichever file comes first", () => {
    for (const copy of ["a.misce", "z.misce"]) {
      const files = ["library.misce", copy].sort();
      expect(twiceIn({ ...texts, [copy]: ampoule.replace("500", "250") })).toEqual({
        [files[0]!]: [
          `\`magnesium-ampoule\` is declared again; this one is used. Give one of them another name. declared again here: ${files[1]}`,
        ],
        [files[1]!]: [
          `\`magnesium-ampoule\` is already the name of a stock; the first is used. Give one of them another name. first declared here: ${files[0]}`,
        ],
        "b.misce": [
          `\`magnesium-ampoule\` is declared twice, so which figures belong in this recipe is a guess. Give one of the two another name, or take it out. the first, which is used: ${files[0]}, the other: ${files[1]}`,
        ],
      });
    }
  });

  test("is told in the recipe's file once where one of the two stands there", () => {
    const found = twiceIn({ "b.misce": `${ampoule}${recipe}`, "library.misce": rest });
    expect(found["b.misce"]).toHaveLength(1);
    expect(found["library.misce"]).toHaveLength(1);
  });

  test("is no longer told once one of them is gone, in a library that is kept up to date", () => {
    const library = new Library({ asOf });
    for (const [file, text] of Object.entries({ ...texts, "z.misce": ampoule })) library.open(file, text);
    const told = () => library.files().flatMap((f) => library.findings(f).filter((x) => x.name === "declared-twice"));
    expect(told()).toHaveLength(3);
    library.change("z.misce", "# gone\n");
    expect(told()).toHaveLength(0);
    library.change("z.misce", ampoule);
    expect(told()).toHaveLength(3);
  });
});

test("a recipe copied into a file that comes first is told there too", () => {
  const found = twiceIn({ "a.misce": recipe, "b.misce": recipe, "library.misce": rest });
  expect(found["a.misce"]).toHaveLength(1);
  expect(found["b.misce"]).toHaveLength(1);
});

test("a name for two kinds of thing leaves a recipe's figures certain, unless both could be its material", () => {
  const reference = 'reference magnesium-ampoule {\n  title "A reference"\n  invented yes\n}\n';
  expect(twiceIn({ "b.misce": recipe, "library.misce": rest, "z.misce": reference })["b.misce"]).toEqual([]);
  const device = "device magnesium-ampoule {\n  kind needle\n}\n";
  expect(twiceIn({ "b.misce": recipe, "library.misce": rest, "z.misce": device })["b.misce"]).toHaveLength(1);
});
