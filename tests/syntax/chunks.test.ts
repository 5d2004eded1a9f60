import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chunkHead, splitChunks } from "../../language/syntax/chunks.ts";

function cut(text: string): string[] {
  return splitChunks(text).map((c) => c.text);
}

describe("splitting a file", () => {
  test.each<[string, string[]]>([
    ["", []],
    ["# only a comment\n", ["# only a comment\n"]],
    ["# c\nsite {\n}\r\ndrug x {\n}\rstock y { # c", ["# c\n", "site {\n}\r\n", "drug x {\n}\r", "stock y { # c"]],
    ["\uFEFFdrug x {\n}", ["\uFEFFdrug x {\n}"]],
    ["drug x {\n\uFEFFRECIPE y{\n", ["drug x {\n", "\uFEFFRECIPE y{\n"]],
    ["recipe 5-x {\nlots {", ["recipe 5-x {\n", "lots {"]],
  ])("%j", (text, expected) => {
    expect(cut(text)).toEqual(expected);
  });

  test.each([
    "drug x",
    " drug x {",
    "drug x { y",
    "drug x {#",
    "drugs x {",
    "drug x y {",
    'drug "x" {',
    "note drug x {",
    "a\u2028drug x {",
  ])("%j is no declaration head", (text) => {
    expect(cut(`# c\n${text}`)).toHaveLength(1);
  });

  test("the chunks joined are the file, each at its start", () => {
    const piece = fc.oneof(
      fc.constantFrom("\n", "\r", "\r\n", "drug x {", "site {", "recipe y { # c", "lots", " ", "}", "\uFEFF", "{"),
      fc.string({ unit: "binary" }),
    );
    fc.assert(
      fc.property(
        fc.array(piece).map((p) => p.join("")),
        (text) => {
          const chunks = splitChunks(text);
          expect(chunks.map((c) => c.text).join("")).toBe(text);
          for (const { start, text: part } of chunks) expect(text.startsWith(part, start)).toBe(true);
        },
      ),
      { seed: 4, numRuns: 500 },
    );
  });
});

describe("the head of a chunk", () => {
  test.each([
    ["recipe magnesium-4g {\n", { word: "recipe", name: "magnesium-4g", nameStart: 7, nameEnd: 19 }],
    ["\uFEFFStock  e {", { word: "stock", name: "e", nameStart: 8, nameEnd: 9 }],
    ["site {", { word: "site", name: undefined, nameStart: 4, nameEnd: 4 }],
    ["drug 5-fluorouracil {", { word: "drug", name: undefined, nameStart: 5, nameEnd: 19 }],
    ["# before the first", undefined],
  ])("%j", (text, expected) => {
    expect(chunkHead(text)).toEqual(expected);
  });
});
