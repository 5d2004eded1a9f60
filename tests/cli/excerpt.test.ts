import fc from "fast-check";
import { expect, test } from "vitest";
import { excerptOf } from "../../client/cli/reports/excerpt.ts";
import { visible } from "../../client/cli/reports/visible.ts";
import { placeOf, SourceText } from "../../client/cli/source-text.ts";

function excerpt(text: string, part: string, width = 80) {
  const start = text.indexOf(part);
  const source = new SourceText(text);
  const place = placeOf({ file: "a", start, end: start + part.length }, new Map([["a", source]]));
  return excerptOf(place, source, width);
}

test.each([
  ["plain", "draw 12 mL from vial", "12 mL", "draw 12 mL from vial", "     ^^^^^"],
  // A tab goes to the next of every four cells.
  ["tab before", "\tdraw 12 mL", "draw", "    draw 12 mL", "    ^^^^"],
  ["tab after two letters", "ab\tdraw", "draw", "ab  draw", "    ^^^^"],
  // Two cells each: Unicode annex 11, East Asian wide; emoji by their presentation.
  ["wide letters", '"漢字" 5 mL', "5 mL", '"漢字" 5 mL', "       ^^^^"],
  ["under wide letters", '"漢字" 5 mL', "漢字", '"漢字" 5 mL', " ^^^^"],
  ["emoji of several parts", "👩‍⚕️ 5 mL", "5 mL", "👩‍⚕️ 5 mL", "   ^^^^"],
  ["flag", "🇳🇿 x", "x", "🇳🇿 x", "   ^"],
  ["letter with a mark", "e\u0301 x", "x", "e\u0301 x", "  ^"],
  ["control character", "a\u001b[31mb", "b", "a<U+001B>[31mb", "             ^"],
  ["override of direction", "a\u202eb", "b", "a<U+202E>b", "         ^"],
])("carets stand under the place: %s", (_, text, part, line, carets) => {
  expect(excerpt(text, part)).toMatchObject({ line, carets });
});

test("an empty place, and one at the end of the line, get one caret", () => {
  const source = new SourceText("ab\ncd");
  const place = (start: number, end: number) => placeOf({ file: "a", start, end }, new Map([["a", source]]));
  expect(excerptOf(place(1, 1), source, 80).carets).toBe(" ^");
  expect(excerptOf(place(2, 2), source, 80).carets).toBe("  ^");
  expect(excerptOf(place(5, 5), source, 80)).toMatchObject({ lineNumber: 2, carets: "  ^" });
});

test("a place over several lines is shown on its first and says where it ends", () => {
  expect(excerpt("ab cd\nef\ngh", "cd\nef\ng")).toEqual({ lineNumber: 1, line: "ab cd", carets: "   ^^", until: 3 });
});

test.each(["\n", "\r", "\r\n"])("lines end at %j", (ending) => {
  const source = new SourceText(`one${ending}two${ending}${ending}four`);
  expect([1, 2, 3, 4, 5].map((n) => source.line(n))).toEqual(["one", "two", "", "four", ""]);
  expect(source.position(3 + ending.length)).toEqual({ line: 2, column: 1 });
  expect(new SourceText("a\u2028b").position(2)).toEqual({ line: 1, column: 3 });
});

test("a long line shows the part around the place", () => {
  const text = `${"a".repeat(500)} 12 mL ${"b".repeat(500)}`;
  const { line, carets } = excerpt(text, "12 mL", 40);
  expect(line.startsWith("…") && line.endsWith("…")).toBe(true);
  expect(line.length).toBeLessThanOrEqual(40);
  expect(line.slice(carets.indexOf("^"), carets.length)).toBe("12 mL");
});

test("a line of ten megabytes takes no time to cut", () => {
  const text = `${"x\u{1f600}".repeat(3_000_000)}12 mL${"y".repeat(1_000_000)}`;
  // On the clock of this process alone: others may be busy.
  const began = process.cpuUsage();
  const { line } = excerpt(text, "12 mL", 60);
  expect(line).toContain("12 mL");
  const { user, system } = process.cpuUsage(began);
  expect(user + system).toBeLessThan(4_000_000);
});

test("for any ASCII line and place, the carets stand exactly under the place's letters", () => {
  const lines = fc.string({
    unit: fc.integer({ min: 33, max: 126 }).map((c) => String.fromCharCode(c)),
    minLength: 1,
    maxLength: 300,
  });
  fc.assert(
    fc.property(lines, fc.nat(), fc.nat(8), fc.integer({ min: 20, max: 120 }), (text, at, length, width) => {
      const start = at % text.length;
      const end = Math.min(text.length, start + 1 + length);
      const source = new SourceText(text);
      const place = placeOf({ file: "a", start, end }, new Map([["a", source]]));
      const { line, carets } = excerptOf(place, source, width);
      expect(line.length).toBeLessThanOrEqual(width);
      expect(line.slice(carets.indexOf("^"), carets.length)).toBe(text.slice(start, end));
    }),
  );
});

test("nothing that moves a cursor or turns the direction is shown as it is", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 40 }), (text) => {
      expect(visible(text)).not.toMatch(/[\p{Cc}\p{Cs}\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029]/u);
    }),
  );
});
