import { describe, expect, test } from "vitest";
import { parseChunk } from "../../language/syntax/parser.ts";
import type { Block, Entry } from "../../language/syntax/tree.ts";

/** The tree as indented text; an unclosed block ends in `…`. */
function shape(text: string): string {
  return parseChunk(text).entries.map(told).join("\n");
}

function told(entry: Entry): string {
  const line = entry.kind === "line" ? entry : entry.head;
  const words = line.tokens.map((t) => t.text).join(" ");
  if (entry.kind === "line") return words;
  const body = entry.body.flatMap((inner) => told(inner).split("\n")).map((row) => `  ${row}`);
  return [`${words} {`, ...body, entry.close ? "}" : "…"].join("\n");
}

/** Each problem as `name: the text it marks`. */
function problems(text: string): string[] {
  return parseChunk(text).problems.map((p) => `${p.name}: ${text.slice(p.start, p.end)}`);
}

function rows(...lines: string[]): string {
  return lines.join("\n");
}

describe("blocks", () => {
  test("a sound chunk has no problem", () => {
    const text = rows("recipe a {", "  order {  # c", "    dose 4 g", "  }", "}", "");
    expect(shape(text)).toBe(rows("recipe a {", "  order {", "    dose 4 g", "  }", "}"));
    expect(problems(text)).toEqual([]);
  });

  test("a declaration in column 1 closes all that is open", () => {
    const text = rows("recipe a {", "  order {", "    dose 4 g", "Stock b {", "  fill 10 mL", "}");
    expect(shape(text)).toBe(
      rows("recipe a {", "  order {", "    dose 4 g", "  …", "…", "Stock b {", "  fill 10 mL", "}"),
    );
    expect(problems(text)).toEqual(["block-not-closed: recipe a {"]);
  });

  test("the same words are a fact when no brace follows or when they are indented", () => {
    const text = rows("recipe a {", "  order {", "drug x", "  drug y {", "  }", "  }", "}");
    expect(problems(text)).toEqual([]);
    expect(shape(text)).toBe(rows("recipe a {", "  order {", "    drug x", "    drug y {", "    }", "  }", "}"));
  });

  test("the end of the text closes what is open", () => {
    expect(problems("recipe a {\n  steps {\n    mix bag")).toEqual(["block-not-closed: recipe a {"]);
  });

  test("a block of a recipe inside another one closes it, and one missing brace is told once", () => {
    const text = rows(
      "recipe a {",
      "  steps {",
      "    only when x up to 1 g {",
      "      mix b",
      "  preparation b {",
      "  }",
      "}",
    );
    expect(problems(text)).toEqual(["block-not-closed: steps {"]);
    expect(shape(text)).toBe(
      rows(
        "recipe a {",
        "  steps {",
        "    only when x up to 1 g {",
        "      mix b",
        "    …",
        "  …",
        "  preparation b {",
        "  }",
        "}",
      ),
    );
    expect(parseChunk(text).problems[0]).toMatchObject({ before: { start: text.indexOf("preparation") } });
  });

  test("so does a block of a drug or a stock inside another one", () => {
    const text = rows("drug a {", "  stable {", "    for 24 h", "  stable {", "    for 7 days", "  }", "}");
    expect(problems(text)).toEqual(["block-not-closed: stable {"]);
    expect(shape(text)).toBe(
      rows("drug a {", "  stable {", "    for 24 h", "  …", "  stable {", "    for 7 days", "  }", "}"),
    );
  });

  test("a block without its opening brace is read as that block, and told once", () => {
    const text = rows("drug a {", "  stable", '    source "table 2"', "    for 24 h", "  }", "}");
    expect(problems(text)).toEqual(["brace-missing: stable"]);
    const block = parseChunk(text).entries[0] as Block;
    expect(block.body[0]).toMatchObject({ kind: "block", body: [{ kind: "line" }, { kind: "line" }] });
    // Closed by nobody: somebody is still typing, and the line is no head yet.
    expect(problems(rows("drug a {", "  stable", '    source "table 2"', "}"))).toEqual([]);
  });

  test("a step that begins with such a word is a step", () => {
    expect(problems(rows("recipe a {", "  steps {", "    order b", "  }", "}"))).toEqual([]);
  });

  test("text after an opening brace keeps its meaning", () => {
    expect(shape("order { dose 4 g\n}")).toBe(rows("order {", "  dose 4 g", "}"));
    expect(problems("order { dose 4 g\n}")).toEqual(["brace-not-at-line-end: {"]);
  });

  test("text beside a closing brace keeps its meaning", () => {
    const text = rows("lots a {", '  lot "A" }', "} x");
    expect(shape(text)).toBe(rows("lots a {", '  lot "A"', "}", "}", "x"));
    expect(problems(text)).toEqual(["closing-brace-not-alone: }", "stray-closing-brace: }"]);
    expect(problems("a {\n  b {\n  } }")).toEqual(["closing-brace-not-alone: }"]);
    expect(problems("a {\n  b {\n  } x\n}")).toEqual(["closing-brace-not-alone: }"]);
  });

  test("a row of stray braces is one problem and stays in the tree", () => {
    expect(problems("}}}\n}")).toEqual(["stray-closing-brace: }}}", "stray-closing-brace: }"]);
    expect(shape("}}")).toBe("}\n}");
  });

  test("a block may have no head", () => {
    const [entry] = parseChunk(" {\n}").entries;
    expect(entry).toMatchObject({ kind: "block", head: { tokens: [], start: 1, end: 1 }, start: 1, end: 4 });
  });

  test("sixteen levels are read; what is deeper becomes signs, and the levels above stay whole", () => {
    const nested = (n: number) => `${"a {\n".repeat(n)}x\n${"}\n".repeat(n)}y`;
    expect(problems(nested(16))).toEqual([]);
    expect(problems(nested(20))).toEqual(["nested-too-deeply: {"]);
    expect(parseChunk(nested(20)).entries.map((e) => e.kind)).toEqual(["block", "line"]);
  });

  test("a declaration in column 1 also ends a nesting that went too deep", () => {
    const text = `${"a {\n".repeat(20)}recipe b {\n  order {\n  }\n}\n`;
    const names = parseChunk(text).problems.map((p) => p.name);
    expect(names.filter((name) => name === "nested-too-deeply")).toHaveLength(1);
    expect(parseChunk(text).entries.at(-1)).toMatchObject({ kind: "block", body: [{ kind: "block", body: [] }] });
  });
});

describe("lines that continue the one above", () => {
  test("source, because, by, until and when join the statement above", () => {
    const text = rows(
      "deviation overfull-margin on bag",
      '  because "x"',
      "  by aseptic-lead  # c",
      "  Until 2027-03-31",
      "next",
    );
    expect(shape(text)).toBe(
      rows('deviation overfull-margin on bag because "x" by aseptic-lead Until 2027-03-31', "next"),
    );
    expect(problems(text)).toEqual([]);
    expect(parseChunk(text).entries[0]!.end).toBe(text.indexOf("\nnext"));
  });

  test.each([
    ["a blank line", rows("recipe a {", "  fact", "", "  until 2027-03-31", "}")],
    ["a comment line", rows("recipe a {", "  fact", "  # why", "  until 2027-03-31", "}")],
    ["a closing brace", rows("recipe a {", "  b {", "  }", "  until 2027-03-31", "}")],
    ["nothing", rows("recipe a {", "  until 2027-03-31", "}")],
  ])("after %s there is no statement to continue", (_, text) => {
    expect(problems(text)).toEqual(["stray-continuation: until 2027-03-31"]);
  });

  test("source as the first line of a block speaks for the block", () => {
    const text = rows("stable {", '  source guide-a "table 7"', "  in glucose-5", "}");
    expect(shape(text)).toBe(text);
    expect(problems(text)).toEqual([]);
    expect(problems("source x")).toEqual(["stray-continuation: source x"]);
  });

  test("in steps, also under `only`, every line stands alone", () => {
    const text = rows(
      "steps {",
      "  mix bag",
      "  by hand",
      "  only when dose above 5 mg {",
      "    a",
      "    source b",
      "  }",
      "  until x",
      "}",
    );
    expect(shape(text)).toBe(text);
    expect(problems(text)).toEqual([]);
  });

  test("after the steps, lines join again", () => {
    expect(shape("a {\nsteps {\n}\nb\nsource c\n}")).toBe(rows("a {", "  steps {", "  }", "  b source c", "}"));
  });

  test("a line that opens a block joins nothing", () => {
    expect(shape("fact\nwhen x {\n}")).toBe(rows("fact", "when x {", "}"));
    expect(problems("fact\nwhen x {\n}")).toEqual(["stray-continuation: when x"]);
  });
});
