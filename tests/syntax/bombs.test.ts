import { describe, expect, test } from "vitest";
import { splitChunks } from "../../language/syntax/chunks.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { parseChunk } from "../../language/syntax/parser.ts";
import { printTree } from "../../language/syntax/print.ts";
import { longestLine } from "../../language/syntax/words.ts";

const megabytes = 10_000_000;
const many = 10_000;

// Each of these took time or stack without bound in some way of writing a scanner: one long token, many short ones that
// each look ahead, nesting, and openings without an end. The limit is loose; a quadratic scan takes minutes.
const longLines: Record<string, string> = {
  "one name": "a".repeat(megabytes),
  "one number": "1,".repeat(megabytes / 2),
  "one string that is not closed": `"${"x".repeat(megabytes)}`,
  "one string of backslashes": `"${"\\".repeat(megabytes)}`,
  "one comment": `# ${"x".repeat(megabytes)}`,
  "one unit": `5 ${"m".repeat(megabytes)}`,
  blanks: `recipe${" ".repeat(megabytes)}`,
  NULs: "\0".repeat(megabytes),
  "halves of pairs": "\uD800".repeat(megabytes / 4),
  "byte order marks": "\uFEFF".repeat(megabytes / 4),
  "one head": `recipe ${"x".repeat(megabytes)} {`,
};

const manyTokens: Record<string, string> = {
  "open braces": "{".repeat(10 * many),
  "open braces on lines": "a {\n".repeat(many),
  "closing braces": "}".repeat(10 * many),
  "pairs of braces": "{}".repeat(many),
  "open declarations": "recipe a {\n".repeat(many),
  numbers: "1 ".repeat(many),
  "glued numbers": "1.1_".repeat(many),
  ranges: "60-100 ".repeat(many),
  "half quoted": '"“\\'.repeat(many),
  "curly quotes": "“".repeat(many),
  "trailing words": `a\n${"when b\n".repeat(many)}`,
  "trailing words that open a block": `a\n${"when b {\n".repeat(many)}`,
  commas: ", ".repeat(many),
  newlines: "\r\n\r".repeat(many),
};

describe("texts made to hurt", () => {
  test.each(Object.entries(longLines))("a line of megabytes: %s", { timeout: 20_000 }, (_, text) => {
    const tree = parseChunk(text);
    expect(tree.entries.length + tree.comments.length).toBeLessThan(10);
    expect(printTree(tree) === text).toBe(true);
    expect(splitChunks(text)).toHaveLength(1);
  });

  test("as many open braces as a line may hold", { timeout: 20_000 }, () => {
    expect(parseChunk("{".repeat(longestLine)).problems.filter((p) => p.name === "nested-too-deeply")).toHaveLength(1);
  });

  test.each(Object.entries(manyTokens))("very many: %s", { timeout: 20_000 }, (_, text) => {
    expect(printTree(parseChunk(text)) === text).toBe(true);
    const formatted = formatText(text);
    expect(formatText(formatted) === formatted).toBe(true);
  });
});
