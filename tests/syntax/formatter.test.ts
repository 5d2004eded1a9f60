import { describe, expect, test } from "vitest";
import { formatEdits, formatRange, formatText } from "../../language/syntax/formatter.ts";
import { canonicalSeeds } from "./seeds.ts";

function rows(...lines: string[]): string {
  return `${lines.join("\n")}\n`;
}

describe("canonical layout", () => {
  test.each(canonicalSeeds.map((text, i) => [i, text] as const))("canonical text %i is left alone", (_, text) => {
    expect(formatText(text)).toBe(text);
    expect(formatEdits(text)).toEqual([]);
  });

  test("a whole recipe", () => {
    const written = rows(
      "",
      "# about it",
      "recipe  a{",
      "",
      'title "T"   # why',
      "",
      "",
      " order {",
      "      dose  25  mg/kg   per bag",
      "  infuse-over\t4 h   ",
      "diluent-volume-more 5 mL when dose up to 1 g",
      "concentration 1 mg/mL source a",
      '  source guide-a   "table 2"',
      "",
      "}",
      "  materials {",
      "  mag 3  x ampoule",
      "  }",
      "steps {",
      "draw 1 mL from mag,bag ,c into s= 8 mL",
      "make up s to 10 mL with w giving 25 mcg/mL # c",
      "draw 10mg from 2x bag",
      "only when dose above 5 mg {",
      "swirl a until dissolved",
      "}",
      "}",
      "deviation x on bag",
      "by lead",
      "}",
      "lots m {",
      'lot "A" expires 2027-04',
      "}",
    ).trimEnd();
    expect(formatText(written)).toBe(
      rows(
        "# about it",
        "recipe a {",
        '  title  "T"  # why',
        "",
        "  order {",
        "    dose            25 mg/kg per bag",
        "    infuse-over     4 h",
        "    diluent-volume-more  5 mL  when dose up to 1 g",
        "    concentration   1 mg/mL  source a",
        '      source guide-a "table 2"',
        "  }",
        "  materials {",
        "    mag         3 x ampoule",
        "  }",
        "  steps {",
        "    draw 1 mL from mag, bag, c into s  = 8 mL",
        "    make up s to 10 mL with w  giving 25 mcg/mL  # c",
        "    draw 10mg from 2x bag",
        "    only when dose above 5 mg {",
        "      swirl a until dissolved",
        "    }",
        "  }",
        "  deviation x on bag",
        "    by lead",
        "}",
        "",
        "lots m {",
        '  lot  "A"  expires 2027-04',
        "}",
      ),
    );
  });

  test("adding a longer fact leaves its neighbours alone", () => {
    const text = rows("order {", "  dose            4 g per bag", "}");
    const more = text.replace("}", "extraordinarily-long-word 5 mL\n}");
    expect(formatText(more)).toBe(
      rows("order {", "  dose            4 g per bag", "  extraordinarily-long-word  5 mL", "}"),
    );
  });
});

describe("what is not understood keeps its inside", () => {
  test("a line with a faulty token", () => {
    expect(formatText("order {\ndose   5 @  bag  \nroute  x\n}")).toBe(
      rows("order {", "  dose   5 @  bag", "  route           x", "}"),
    );
  });

  test("a block with a layout problem, but not the one beside it", () => {
    expect(formatText("a {\n}\norder {\nroute x }\norder {\nroute x\n}")).toBe(
      rows("a {", "}", "", "order {", "  route x }", "", "order {", "  route           x", "}"),
    );
    expect(formatText("order {\nroute   x")).toBe(rows("order {", "  route   x"));
  });

  test("braces that share a row", () => {
    expect(formatText("fluid a {\nuse x\n}}}")).toBe(rows("fluid a {", "  use         x", "}}}"));
    expect(formatText("a {\norder {\n}}")).toBe(rows("a {", "  order {", "  }}"));
  });

  test("a block of unknown name", () => {
    expect(formatText("ordr {\nroute   x\n}")).toBe(rows("ordr {", "  route   x", "}"));
  });

  test("a blank whose loss would join two tokens", () => {
    expect(formatText("steps {\ndraw 5  million units\n}")).toBe(rows("steps {", "  draw 5  million units", "}"));
  });
});

describe("the file around it", () => {
  test("the first newline wins, and the last line gets one", () => {
    expect(formatText("site {\r\n}\n\n\ndrug x {\r}")).toBe("site {\r\n}\r\n\r\ndrug x {\r\n}\r\n");
  });

  test("the byte order mark stays", () => {
    expect(formatText("\uFEFF  site {\n}")).toBe("\uFEFFsite {\n}\n");
  });

  test.each(["", " \t\n\n"])("%j becomes the empty file", (text) => {
    expect(formatText(text)).toBe("");
  });

  test("a range touches its own rows only", () => {
    const text = "order {\nroute  x\ndose  y\n}\n";
    const at = text.indexOf("dose");
    const edits = formatRange(text, { start: at, end: at + 4 });
    expect(edits).toEqual([
      { start: at - 1, end: at, text: "\n  " },
      { start: at, end: at + 7, text: "dose            y" },
    ]);
  });
});
