/** No change of meaning keeps a fingerprint; no change of layout, comments or lots alters one. */
import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { canonicalJson } from "../../language/compare/canonical.ts";
import { fingerprintOf, hashOf } from "../../language/compare/fingerprint.ts";
import { meaningKeys } from "../../language/compare/merge-texts.ts";
import type { Library } from "../../language/library.ts";
import type { Recipe } from "../../language/model/declaration.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { deletionMutants, figureMutants, type Mutant, swapMutants, unitMutants } from "../mutation/mutants.ts";
import { edited, libraryOf, sampleTexts } from "./sample-library.ts";

const texts = sampleTexts();
const isLong = process.env.MISCE_LONG === "1";

function recipesOf(library: Library): Recipe[] {
  return library.ofKind("recipe").filter((d): d is Recipe => d.kind === "recipe");
}

function fingerprints(library: Library): Map<string, string> {
  return new Map(recipesOf(library).map((r) => [r.name.name, fingerprintOf(r, library)]));
}

const untouched = fingerprints(libraryOf(texts));

/** Every n-th, so that a short run sees all kinds. */
function some<T>(all: readonly T[], most: number): T[] {
  const step = isLong ? 1 : Math.max(1, Math.floor(all.length / most));
  return all.filter((_, k) => k % step === 0);
}

test("the hash is the published SHA-256 of the canonical text", () => {
  fc.assert(
    fc.property(fc.string(), (text) => {
      expect(hashOf(text)).toBe(createHash("sha256").update(canonicalJson(text)).digest("hex"));
    }),
  );
});

/** Belongs to the line above, and may not be parted from it by a blank line. */
const continues = /^(because|by|until|when|source) /;

describe("kept by", () => {
  test("layout, comments and blank lines on every line of every file", () => {
    const noisy = [...texts].map(([name, text]): [string, string] => [
      name,
      `# head\n${text.replace(/^( *)(\S.*)$/gm, (_, indent: string, line: string) => (continues.test(line) ? `${indent}${line}  # note` : line === "}" ? `${indent}}` : `\n${indent}   ${line}   # note`))}`,
    ]);
    expect(fingerprints(libraryOf(new Map(noisy)))).toEqual(untouched);
  });

  test("the formatter, and Windows newlines", () => {
    const other = [...texts].map(([name, text]): [string, string] => [
      name,
      formatText(text.replace(/ {2,}/g, "  ")).replaceAll("\n", "\r\n"),
    ]);
    expect(fingerprints(libraryOf(new Map(other)))).toEqual(untouched);
  });

  test("another order of the facts of each block that is no steps", () => {
    const shuffled = [...texts].map(([name, text]): [string, string] => [
      name,
      text.replace(
        /^( +)(order|materials) \{\n([^}]*)^\1\}/gm,
        (_, indent, word, body: string) =>
          `${indent}${word} {\n${body.trimEnd().split("\n").reverse().join("\n")}\n${indent}}`,
      ),
    ]);
    const changed = shuffled.filter(([name, text]) => texts.get(name) !== text);
    expect(changed.length).toBeGreaterThan(40);
    expect(fingerprints(libraryOf(new Map(shuffled)))).toEqual(untouched);
  });

  test("the approvals that the site asks for, and roles that the recipe does not name", () => {
    let after: ReadonlyMap<string, string> = edited(
      texts,
      "site.misce",
      "  note ",
      "  role            senior-technician\n  note ",
    );
    after = edited(after, "site.misce", "  note ", "  approvals       pharmacist\n  note ");
    expect(fingerprints(libraryOf(after))).toEqual(untouched);
  });

  test("lots, other files, and other recipes", () => {
    const after = new Map(texts);
    after.delete("lots.misce");
    after.set("recipes/all-else.misce", texts.get("recipes/magnesium-4g.misce")!);
    after.delete("recipes/magnesium-4g.misce");
    expect(fingerprints(libraryOf(after))).toEqual(untouched);
  });
});

describe("altered by", () => {
  test("a note of the site, which stands on every sheet", () => {
    const after = fingerprints(libraryOf(edited(texts, "site.misce", '"Invented', '"An invented')));
    for (const [name, fingerprint] of untouched) expect(after.get(name), name).not.toBe(fingerprint);
  });

  const recipes = [...texts.keys()].filter((name) => name.startsWith("recipes/"));
  const mutants: Mutant[] = recipes.flatMap((file) => {
    const text = texts.get(file)!;
    return [
      ...figureMutants(file, text),
      ...unitMutants(file, text),
      ...deletionMutants(file, text),
      ...swapMutants(file, text),
    ];
  });

  test("every clinical fault in a recipe", { timeout: 600_000 }, () => {
    const library = libraryOf(texts);
    const kept: string[] = [];
    const tried = some(mutants, 900);
    for (const mutant of tried) {
      library.change(mutant.file, mutant.text);
      const name = /^recipe (\S+)/m.exec(mutant.text)![1]!;
      const [recipe] = recipesOf(library).filter((r) => r.name.name === name);
      if (fingerprintOf(recipe!, library) === untouched.get(name))
        kept.push(`${mutant.file}: ${mutant.what} in ${mutant.words}`);
      library.change(mutant.file, texts.get(mutant.file)!);
    }
    expect(tried.length).toBeGreaterThan(800);
    // A thousandth of both parts of a unit is the same quantity: no fault at all.
    expect(kept.filter((what) => !what.includes("mg/mL → g/L"))).toEqual([]);
  });

  test("every fact of what a recipe rests on that changes a finding, and every fact that is taken out", {
    timeout: 600_000,
  }, () => {
    const library = libraryOf(texts);
    const lines = [...texts].flatMap(([file, text]) =>
      file.startsWith("recipes/") || file === "lots.misce"
        ? []
        : text
            .split("\n")
            .flatMap((line, at) => (/^ +\S/.test(line) && !/[{}]/.test(line) ? [{ file, at, line }] : [])),
    );
    const findings = (of: Library) =>
      new Map(
        recipesOf(of).map((r) => {
          const { file } = of.spanOf({ ...r.head, chunk: r.chunk })!;
          return [r.name.name, JSON.stringify(of.findings(file).map((f) => [f.name, f.message]))];
        }),
      );
    const calm = findings(library);
    const blind: string[] = [];
    for (const { file, at, line } of some(lines, 25)) {
      const rest = texts.get(file)!.split("\n");
      rest.splice(at, 1);
      library.change(file, rest.join("\n"));
      const now = fingerprints(library);
      for (const [name, said] of findings(library)) {
        if (said !== calm.get(name) && now.get(name) === untouched.get(name))
          blind.push(`${name}: ${file}: ${line.trim()}`);
      }
      library.change(file, texts.get(file)!);
    }
    // A horizon for lots speaks of the shelf, and is part of the site's meaning all the same; nothing may be left here.
    expect(blind).toEqual([]);
  });

  test("a role of the site that the recipe names: its check, or its deviation, then counts or no longer does", () => {
    const now = fingerprints(
      libraryOf(edited(texts, "site.misce", "role            pharmacist", "role            chemist")),
    );
    const named = [...texts].flatMap(([file, text]) =>
      file.startsWith("recipes/") && /\bby pharmacist\b/.test(text) ? [/^recipe (\S+)/m.exec(text)![1]!] : [],
    );
    expect(named.length).toBeGreaterThan(40);
    expect(named.filter((name) => now.get(name) === untouched.get(name))).toEqual([]);
  });

  test("a word of a text, a source, a note, a deviation, a claim", () => {
    const one = "recipes/magnesium-4g.misce";
    for (const [was, is] of [
      ["clear, colourless", "clear"],
      ["= 8 mL", "= 8.0 mL # same"],
      ["label bag", 'label bag\n    note "read"'],
    ] as const) {
      const now = fingerprints(libraryOf(edited(texts, one, was, is))).get("magnesium-4g");
      if (was === "= 8 mL") expect(now).toBe(untouched.get("magnesium-4g"));
      else expect(now).not.toBe(untouched.get("magnesium-4g"));
    }
  });
});

test("every line of every sample is in its meaning once", () => {
  for (const [name, text] of texts) {
    const lines = text
      .split("\n")
      .filter(
        (l) => /^ +[^}#\s]/.test(l) && !/^ +(order|materials|steps|stable|reconstitute|label-text|only .*) ?\{/.test(l),
      );
    const own = lines.filter((l) => !/^ +(because|by|until|when) /.test(l));
    // `source` opens a fact of its own or belongs to the line above: told apart by how it is set.
    const sources = own.filter((l) => /^ +source /.test(l)).length;
    const count = meaningKeys(text).length;
    expect(`${name} ${count >= own.length - sources && count <= own.length}`).toBe(`${name} true`);
  }
});
