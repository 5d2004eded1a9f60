import { describe, expect, test } from "vitest";
import { unitRows } from "../../language/quantities/unit-table.ts";
import { parseChunk } from "../../language/syntax/parser.ts";
import { allTokens } from "../../language/syntax/print.ts";
import { unitsOfTwoWords } from "../../language/syntax/words.ts";

/** The tokens of a text as `kind:text`, faulty ones as `fault:text`. */
function tokens(text: string): string[] {
  return allTokens(parseChunk(text)).map((t) => `${t.fault ?? t.kind}:${t.text}`);
}

function comments(text: string): string[] {
  return parseChunk(text).comments.map(({ start, end }) => text.slice(start, end));
}

// The rows follow the lexical table and rules 13 and 15 to 19 of the language's design notes.
describe.each<[string, [text: string, tokens: string[]][]]>([
  [
    "numbers",
    [
      ["5 -10", ["number:5", "number:-10"]],
      ["10 000 mL", ["number:10 000", "unit:mL"]],
      ["1 000 000.5 mL", ["number:1 000 000.5", "unit:mL"]],
      ["10 0000 mL", ["number:10", "number:0000", "unit:mL"]],
      ["1000 000 mL", ["number:1000", "number:000", "unit:mL"]],
      ["10 100-200 mL", ["number:10", "hyphen-range:100-200 mL"]],
      ["5\u00A0million units", ["number:5\u00A0million", "unit:units"]],
      ["10\u2009000 mL", ["number:10\u2009000", "unit:mL"]],
      ["10\u202F000", ["number:10\u202F000"]],
      ["10\u00A0000", ["number:10\u00A0000"]],
      ["1,000.5", ["number:1,000.5"]],
      ["1, 000", ["number:1", "comma:,", "number:000"]],
      [".5 mg", ["number:.5", "unit:mg"]],
      ["5 million units", ["number:5 million", "unit:units"]],
      ["5 thousand units", ["number:5 thousand", "unit:units"]],
      ["5  million units", ["number:5", "unit:million", "word:units"]],
      ["5 millionths", ["number:5", "unit:millionths"]],
      ["5 M units", ["number:5 M", "unit:units"]],
      ["5 MM units", ["number:5 MM", "unit:units"]],
      ["5K units", ["number:5K", "unit:units"]],
      ["5 M glucose", ["number:5", "unit:M", "word:glucose"]],
      ["1½ mL ½ mL", ["number:1½", "unit:mL", "number:½", "unit:mL"]],
      ["10^6 units", ["number:10^6", "unit:units"]],
      ["10 ^6", ["number:10", "symbol:^", "number:6"]],
      ["5 - 10 mL", ["number:5", "symbol:-", "number:10", "unit:mL"]],
      ["60-100 kg per", ["hyphen-range:60-100 kg", "word:per"]],
      ["60–100kg per", ["hyphen-range:60–100kg", "word:per"]],
      ["60-100 to", ["hyphen-range:60-100", "word:to"]],
      ["10. mg", ["number:10", "symbol:.", "word:mg"]],
    ],
  ],
  [
    "units",
    [
      ["10mg", ["number:10", "unit:mg"]],
      ["10 mg. x", ["number:10", "unit:mg.", "word:x"]],
      ["5 µg 5 μg", ["number:5", "unit:µg", "number:5", "unit:μg"]],
      ["0.9% w/v of", ["number:0.9", "unit:% w/v", "word:of"]],
      ["70 % V/V,", ["number:70", "unit:% V/V", "comma:,"]],
      ["5 % w/vx", ["number:5", "unit:%", "word:w", "symbol:/", "word:vx"]],
      ["120 mL/24h", ["number:120", "unit:mL/24h"]],
      ["37 °C", ["number:37", "unit:°C"]],
      ["10 mL=8 mL", ["number:10", "unit:mL", "equals:=", "number:8", "unit:mL"]],
      ["100 international units", ["number:100", "unit:international units"]],
      ["5 USP units/mL, x", ["number:5", "unit:USP units/mL", "comma:,", "word:x"]],
      ["5 international bag", ["number:5", "unit:international", "word:bag"]],
      ["5\nmg", ["number:5", "word:mg"]],
      ["5 # c\nmg", ["number:5", "word:mg"]],
      ["10\u00A0mg 5\u202F% w/v", ["number:10", "unit:mg", "number:5", "unit:% w/v"]],
      ["dose\u00A010\u2003mg", ["word:dose", "number:10", "unit:mg"]],
      ["1/2 tablet", ["number:1/2", "unit:tablet"]],
      ["5 /", ["number:5", "symbol:/"]],
    ],
  ],
  [
    "words after a bare number",
    [
      ["20 x syringes", ["number:20", "word:x", "word:syringes"]],
      ["2x bag", ["number:2", "word:x", "word:bag"]],
      ["20 × bag", ["number:20", "symbol:×", "word:bag"]],
      ["12 to 110 kg", ["number:12", "word:to", "number:110", "unit:kg"]],
      ["12 To 110 kg", ["number:12", "word:To", "number:110", "unit:kg"]],
      ["2 count 1", ["number:2", "word:count", "number:1"]],
      ["10 times", ["number:10", "word:times"]],
      ["2 when dose", ["number:2", "word:when", "word:dose"]],
      ["18 gauge", ["number:18", "unit:gauge"]],
    ],
  ],
  [
    "ratios and dates",
    [
      ["1:1000 w/v", ["ratio:1:1000", "unit:w/v"]],
      ["1:1,000", ["ratio:1:1,000"]],
      ["2:1", ["ratio:2:1"]],
      ["1 : 1,000 w/v", ["ratio:1 : 1,000", "unit:w/v"]],
      ["1\u2236200", ["ratio:1\u2236200"]],
      ["4:30 h", ["ratio:4:30", "unit:h"]],
      ["4\u00b75 g", ["number:4\u00b75", "unit:g"]],
      ["4\u00b710^3 mg", ["number:4\u00b710^3", "unit:mg"]],
      ["4 1/2 g", ["number:4 1/2", "unit:g"]],
      ["4 \u00bd g", ["number:4 \u00bd", "unit:g"]],
      ["1.5e3 mg", ["number:1.5e3", "unit:mg"]],
      ["2027-04 2027-04-30", ["date:2027-04", "date:2027-04-30"]],
      ["2026-13", ["date:2026-13"]],
      ["2027-04-lot", ["date-shape:2027-04-lot"]],
      ["2027-4", ["date-shape:2027-4"]],
      ["2027-04.", ["date-shape:2027-04."]],
      ["03/04/26", ["date-shape:03/04/26"]],
      ["04/2027", ["date-shape:04/2027"]],
      ["30.04.2027", ["date-shape:30.04.2027"]],
      ["2026-2030", ["hyphen-range:2026-2030"]],
    ],
  ],
  [
    "names",
    [
      ["sodium-chloride-0.9 tobramycin", ["word:sodium-chloride-0.9", "word:tobramycin"]],
      ["sodium-chloride-0.9.", ["name-ends-badly:sodium-chloride-0.9."]],
      ["mag#2", ["name-ends-badly:mag#2"]],
      [
        "mag- name--twice a.5 b_c",
        ["name-ends-badly:mag-", "name-ends-badly:name--twice", "name-ends-badly:a.5", "name-ends-badly:b_c"],
      ],
      ["5-fluorouracil 5 mg", ["name-begins-with-digit:5-fluorouracil", "number:5", "unit:mg"]],
      ["naïve", ["name-not-ascii:naïve"]],
      ["magnesium\u2011sulfate", ["name-not-ascii:magnesium\u2011sulfate"]],
      ["mag\u200Bnesium mag\uFEFFnesium", ["name-not-ascii:mag\u200Bnesium", "name-not-ascii:mag\uFEFFnesium"]],
      ["mag,bag", ["word:mag", "comma:,", "word:bag"]],
      ["mag&bag @ dose:", ["word:mag", "symbol:&", "word:bag", "symbol:@", "word:dose", "symbol::"]],
    ],
  ],
  [
    "strings",
    [
      ['"a \\"b\\" # \\\\" x', ['string:"a \\"b\\" # \\\\"', "word:x"]],
      ['"open # x  \nnext', ['string-not-closed:"open # x', "word:next"]],
      ['example "adult {\n}', ["word:example", 'string-not-closed:"adult', "open:{", "close:}"]],
      ["“curly” x", ["string:“curly”", "word:x"]],
      ['"mixed” x', ['string:"mixed”', "word:x"]],
      ['"the “fast” bag" x', ['string:"the “fast” bag"', "word:x"]],
      ['"a”b\\" c', ['string-not-closed:"a”b\\" c']],
      ["'single' ‘the patient’s own’ x", ["string:'single' ‘the patient’s own’", "word:x"]],
      ["'a x", ["symbol:'", "word:a", "word:x"]],
    ],
  ],
  [
    "signs",
    [
      ["> < + ≤ >= <5", ["symbol:>", "symbol:<", "symbol:+", "symbol:≤", "symbol:>=", "symbol:<", "number:5"]],
      ["\u0000\u0000x", ["symbol:\u0000\u0000", "word:x"]],
      ["a\u2028b", ["word:a", "symbol:\u2028", "word:b"]],
      ["\uD800 \uDC00", ["symbol:\uD800", "symbol:\uDC00"]],
      ["😀", ["symbol:😀"]],
      ["\uFEFFsite \uFEFF x", ["word:site", "word:x"]],
    ],
  ],
])("%s", (_, rows) => {
  test.each(rows)("%j", (text, expected) => {
    expect(tokens(text)).toEqual(expected);
  });
});

describe("comments", () => {
  test.each<[string, string[]]>([
    ["open mag #2  ", ["#2"]],
    ["# a\r\n\t# b", ["# a", "# b"]],
    ["\uFEFF# first", ["# first"]],
    ["open mag#2", []],
    ['"a # b"', []],
    ["5 mL# c", []],
  ])("%j", (text, expected) => {
    expect(comments(text)).toEqual(expected);
  });
});

test("CR, LF and CRLF each end one line", () => {
  const entries = parseChunk("a\rb\nc\r\nd\n\re").entries;
  expect(entries.map((e) => [e.start, e.end])).toEqual([
    [0, 1],
    [2, 3],
    [4, 5],
    [7, 8],
    [10, 11],
  ]);
});

test("units of two words are those of the unit table", () => {
  const table = unitRows.flatMap((row) => [row.spelling, ...(row.also ?? [])]);
  const firsts = table
    .filter((spelling) => / units?$/i.test(spelling))
    .map((spelling) => spelling.split(" ")[0]!.toLowerCase());
  // A mega unit is a scale and no unit of the table.
  expect([...new Set([...firsts, "mega"])].sort()).toEqual([...unitsOfTwoWords].sort());
});
