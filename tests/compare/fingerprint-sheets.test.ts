/**
 * Whatever a sheet prints about its recipe changes only with the fingerprint. Left aside is what a sheet says of the day: findings
 * that stand on it (with the bar code, which no sheet has that is not for use), and lots on the shelf.
 */
import { expect, test } from "vitest";
import { fingerprintOf } from "../../language/compare/fingerprint.ts";
import { lookAlikesOf } from "../../language/compare/look-alikes.ts";
import { restsOn } from "../../language/compare/whole-meaning.ts";
import type { Library } from "../../language/library.ts";
import type { Declaration, Recipe } from "../../language/model/declaration.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { sheetOf } from "../../language/sheet/sheet-data.ts";
import { requestFor } from "../sheet/sample-sheets.ts";
import { libraryOf, sampleTexts } from "./sample-library.ts";

/** The samples, in which every stock looks like two others, and every drug is taken for another. */
function confusable(): Map<string, string> {
  const texts = sampleTexts();
  const names = (kind: string) =>
    [...texts.values()].flatMap((t) => [...t.matchAll(new RegExp(`^${kind} (\\S+) \\{`, "gm"))].map((m) => m[1]!));
  const [stocks, drugs] = [names("stock"), names("drug")];
  const other = (all: readonly string[], name: string, by: number) => all[(all.indexOf(name) + by) % all.length]!;
  return new Map(
    [...texts].map(([file, text]) => [
      file,
      text
        .replace(
          /^stock (\S+) \{\n/gm,
          (head, name) => `${head}  looks-like  ${other(stocks, name, 1)}\n  looks-like  ${other(stocks, name, 9)}\n`,
        )
        .replace(/^drug (\S+) \{\n/gm, (head, name) => `${head}  confused  with ${other(drugs, name, 1)}\n`),
    ]),
  );
}

const texts = confusable();
const library = libraryOf(texts);
const recipes = library.ofKind("recipe").filter((d): d is Recipe => d.kind === "recipe");

/** What the sheet says of the recipe, as text; or why there is none. */
function printed(of: Library, recipe: string): string {
  const sheet = sheetOf(of, requestFor(recipe, inputs(recipe)));
  if (isSheetRefusal(sheet)) return sheet.refusal;
  const ofTheDay = new Set(["notForUse", "silenced", "barcode", "onShelf", "fingerprint"]);
  return JSON.stringify(sheet, (key, value) => (ofTheDay.has(key) ? undefined : value), 1);
}

/** A value in the middle of each ordered range. */
function inputs(recipe: string) {
  const order = recipes.find((r) => r.name.name === recipe)!.order;
  const all = new Map<string, string>();
  for (const word of ["weight", "dose", "volume", "age"] as const) {
    const [range] = (order?.every() ?? []).filter((f) => f.word === word && "range" in (f.slots as object));
    const slots = range?.slots as { range?: { from: { written: string } } } | undefined;
    if (slots?.range) all.set(word, slots.range.from.written);
  }
  return { inputs: all };
}

function fingerprint(of: Library, recipe: string): string {
  return fingerprintOf(of.declared(recipe).find((d): d is Recipe => d.kind === "recipe")!, of);
}

/** The library with the text of some declarations changed. */
function altered(isAltered: (d: Declaration) => boolean, alter: (text: string) => string): Library {
  return libraryOf(
    new Map(
      [...texts].map(([file, text]) => {
        const chunks = library.chunks(file);
        expect(chunks.map((c) => c.text).join("")).toBe(text);
        return [file, chunks.map((c) => (c.reading.declarations.some(isAltered) ? alter(c.text) : c.text)).join("")];
      }),
    ),
  );
}

const otherFigures = (text: string) =>
  text.replace(/^ .*/gm, (line) =>
    line.replace(/"([^"]*)"/g, '"another $1"').replace(/(?<![\w.-])\d+(?=[ .])/g, "7$&"),
  );

test("every sheet that is compared here is one", () => {
  const refused = recipes.map((r) => printed(library, r.name.name)).filter((text) => !text.startsWith("{"));
  expect(refused).toEqual([]);
});

test("what a recipe neither rests on nor warns of does not show on its sheet", { timeout: 300_000 }, () => {
  for (const recipe of recipes) {
    const known = new Set<Declaration>(
      [...restsOn(recipe, library), ...lookAlikesOf(recipe, library)].map((r) => r.declaration),
    );
    const name = recipe.name.name;
    const isOther = (d: Declaration) => d !== recipe && d.kind !== "lots" && !known.has(d);
    for (const other of [altered(isOther, otherFigures), altered(isOther, () => "")]) {
      expect(fingerprint(other, name)).toBe(fingerprint(library, name));
      expect(printed(other, name)).toBe(printed(library, name));
    }
  }
});

test("what is printed of a look-alike is in the fingerprint, and nothing else of it", { timeout: 300_000 }, () => {
  const counts = { same: 0, other: 0 };
  const every = process.env.MISCE_LONG === "1" ? 1 : 12;
  let turn = 0;
  for (const recipe of recipes) {
    const name = recipe.name.name;
    for (const { declaration } of lookAlikesOf(recipe, library)) {
      const file = library.spanOf({ chunk: declaration.chunk, start: 0, end: 0 })!.file;
      const before = { print: fingerprint(library, name), sheet: printed(library, name) };
      const whole = texts.get(file)!;
      const { text } = declaration.chunk;
      const lines = text.split("\n");
      for (const [at, line] of lines.entries()) {
        if (!/^ +[^}\s#]/.test(line) || line.endsWith("{")) continue;
        for (const edited of [otherFigures(line), "", "  nonsense  5 mL"]) {
          if (edited === line || turn++ % every !== 0) continue;
          library.change(file, whole.replace(text, lines.with(at, edited).join("\n")));
          const after = { print: fingerprint(library, name), sheet: printed(library, name) };
          library.change(file, whole);
          const what = `${name}, ${declaration.name.name}: ${line} → ${edited}`;
          if (after.sheet === before.sheet) counts.same++;
          else {
            counts.other++;
            expect(after.print, what).not.toBe(before.print);
          }
          // What is written there and not printed is left out; a line that cannot be read counts as long as it may bear on the print.
          if (after.sheet === before.sheet && /^ +(storage|note|gtin|looks-like|source|maximum)\b/.test(line))
            expect(after.print, what).toBe(before.print);
        }
      }
    }
  }
  expect(counts.same).toBeGreaterThan(50);
  expect(counts.other).toBeGreaterThan(50);
});
