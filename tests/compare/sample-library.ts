/** The sample library with edits, for comparing. */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { compareLibraries } from "../../language/compare/compare.ts";
import { Library } from "../../language/library.ts";
import type { Comparison, DeclarationChange } from "../../shared/comparison.ts";

const root = join(import.meta.dirname, "../../samples/library");

/** Texts by path relative to the library. */
export function sampleTexts(): Map<string, string> {
  const names = readdirSync(root, { recursive: true, withFileTypes: true }).filter(
    (e) => e.isFile() && e.name.endsWith(".misce"),
  );
  return new Map(
    names.map((e): [string, string] => {
      const path = join(e.parentPath, e.name);
      return [relative(root, path).replaceAll("\\", "/"), readFileSync(path, "utf8")];
    }),
  );
}

export function libraryOf(texts: ReadonlyMap<string, string>): Library {
  const library = new Library({ asOf: "2026-11-25" });
  for (const [name, text] of texts) library.open(name, text);
  return library;
}

/** What is replaced must be there, once or more: an edit that does nothing proves nothing. */
export function edited(
  texts: ReadonlyMap<string, string>,
  file: string,
  was: string | RegExp,
  is: string,
): Map<string, string> {
  const text = texts.get(file);
  const changed = text?.replace(was, is);
  if (text === undefined || changed === undefined || changed === text) throw new Error(`${file} does not hold ${was}`);
  return new Map([...texts, [file, changed]]);
}

export function compared(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): Comparison {
  const about = { names: { before: "A", after: "B" }, version: "test", notOpened: [] };
  return compareLibraries({ before: libraryOf(before), after: libraryOf(after), ...about });
}

export function changeOf(comparison: Comparison, name: string): DeclarationChange {
  const found = comparison.declarations.find((d) => d.name === name);
  if (!found)
    throw new Error(`Nothing is told of ${name}; told are ${comparison.declarations.map((d) => d.name).join(", ")}`);
  return found;
}

/** `what: before → after percent` of every figure at the bench. */
export function figuresOf({ consequences }: DeclarationChange): string[] {
  return consequences.map((c) =>
    `${c.what}${c.at === "" ? "" : ` at ${c.at}`}: ${c.before} → ${c.after} ${c.percent}`.trim(),
  );
}
