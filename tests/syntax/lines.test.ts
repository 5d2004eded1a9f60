import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LineIndex, lineEndAt, lineStartAt } from "../../language/syntax/lines.ts";

const text = "aé\r\n😀b\rc\n\nd";
const index = new LineIndex(text);

describe("line index", () => {
  test("lines end with LF, CR or CRLF", () => {
    expect(index.lineCount).toBe(5);
    expect([0, 1, 2, 3, 4].map((line) => index.lineText(line))).toEqual(["aé", "😀b", "c", "", "d"]);
  });

  test("the line of an offset is the same without the index", () => {
    for (let at = 0; at <= text.length; at++) {
      // Between the two letters of CRLF stands no place of a line.
      if (text.slice(at - 1, at + 1) === "\r\n") continue;
      const { line } = index.place(at);
      expect([lineStartAt(text, at), lineEndAt(text, at)]).toEqual([index.lineStart(line), index.lineEnd(line)]);
    }
  });

  // Widths of é: one UTF-16 unit, two UTF-8 bytes. 😀: two UTF-16 units, four UTF-8 bytes, one code point (The Unicode Standard, 3.9).
  test.each([
    ["utf-16", 2, 3],
    ["utf-8", 3, 5],
    ["utf-32", 2, 2],
  ] as const)("columns in %s", (unit, endOfFirst, endOfSecond) => {
    expect(index.place(2, unit)).toEqual({ line: 0, character: endOfFirst });
    expect(index.place(7, unit)).toEqual({ line: 1, character: endOfSecond });
    expect(index.offset({ line: 0, character: endOfFirst }, unit)).toBe(2);
    expect(index.offset({ line: 1, character: endOfSecond }, unit)).toBe(7);
  });

  test("what lies outside moves to the nearest end", () => {
    expect(index.place(-3)).toEqual({ line: 0, character: 0 });
    expect(index.place(999)).toEqual({ line: 4, character: 1 });
    expect(index.offset({ line: 99, character: 0 })).toBe(text.length);
    expect(index.offset({ line: 0, character: 99 })).toBe(2);
    expect(index.offset({ line: 0, character: 99 }, "utf-8")).toBe(2);
  });

  test("an offset between the halves of a pair counts as before it", () => {
    expect(index.place(5, "utf-8")).toEqual({ line: 1, character: 0 });
    expect(index.place(5, "utf-32")).toEqual({ line: 1, character: 0 });
  });

  test("a column inside a character is its start", () => {
    expect(index.offset({ line: 1, character: 2 }, "utf-8")).toBe(4);
  });

  test("place and offset are each other's inverse, and agree with a count over the text", () => {
    const any = fc.array(fc.constantFrom("a", "é", "€", "😀", "\n", "\r", "\r\n")).map((parts) => parts.join(""));
    fc.assert(
      fc.property(any, (sample) => {
        const lines = new LineIndex(sample);
        for (let at = 0, pair = false; at <= sample.length; at++) {
          pair = /[\uDC00-\uDFFF]/.test(sample.charAt(at)) || (sample[at] === "\n" && sample[at - 1] === "\r");
          if (pair) continue;
          const before = sample.slice(0, at).split(/\r\n|\r|\n/);
          const column = before.at(-1)!;
          expect(lines.place(at)).toEqual({ line: before.length - 1, character: column.length });
          expect(lines.place(at, "utf-8").character).toBe(Buffer.byteLength(column));
          expect(lines.place(at, "utf-32").character).toBe([...column].length);
          for (const unit of ["utf-16", "utf-8", "utf-32"] as const) {
            expect(lines.offset(lines.place(at, unit), unit)).toBe(at);
          }
        }
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
