/**
 * The language reference by example is true: each case of the pages is read, and the findings it gives are those marked under their
 * words, one to one. A finding without a mark fails, and so does a mark without a finding.
 */
import { describe, expect, test } from "vitest";
import { Library } from "../../language/library.ts";
import { type Case, readPages } from "./pages.ts";

/** A span that runs over several lines is named by its first. */
function found({ given, text }: Case): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  const texts = { ...(given === "" ? {} : { "given.misce": given }), "case.misce": text };
  for (const [file, content] of Object.entries(texts)) library.open(file, content);
  return Object.entries(texts).flatMap(([file, content]) =>
    library
      .findings(file)
      .filter((f) => !f.silenced)
      .map((f) => `${f.name}: ${content.slice(f.span.start, f.span.end).split("\n")[0]}`),
  );
}

const pages = readPages();

test("there are pages", () => expect(pages.length).toBeGreaterThan(4));

for (const { name, cases, faults } of pages) {
  describe(name, () => {
    test("has cases, each with a heading of its own, and changes that fit", () => {
      expect(faults).toEqual([]);
      expect(cases.length).toBeGreaterThan(0);
      expect(cases.filter((c) => c.title === "")).toEqual([]);
    });
    for (const each of cases) {
      test(`${each.title} (line ${each.line})`, () => {
        expect(found(each).sort()).toEqual(each.expected);
      });
    }
  });
}
