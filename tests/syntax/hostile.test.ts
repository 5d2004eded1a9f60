/** Texts made to hurt, through the whole library: each is answered in bounded time by findings a person can act on. */
import { describe, expect, test } from "vitest";
import { standardLibrary } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import { longestText } from "../../language/syntax/words.ts";
import type { Finding } from "../../shared/finding.ts";

function findings(text: string): Finding[] {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  return library.findings("a.misce");
}

function names(text: string): string[] {
  return findings(text).map((f) => f.name);
}

const mb = 1_000_000;

describe("files that are too long are not read, and that is said", () => {
  const texts: Record<string, string> = {
    "one line of 10 MB": "a".repeat(10 * mb),
    "10 MB of short words": "a ".repeat(5 * mb),
    "10 MB of short lines": "a\n".repeat(5 * mb),
    "10 MB of good recipes": standardLibrary.repeat(Math.ceil((10 * mb) / standardLibrary.length)),
    "10 MB of open braces": "a {\n".repeat(2.5 * mb),
    "a million figures of one number": `stock x {\n  fill ${"9".repeat(3 * mb)} mL\n}\n`,
  };
  test.each(Object.entries(texts))("%s", { timeout: 60_000 }, (_, text) => {
    const found = findings(text);
    expect(found.map((f) => f.name)).toEqual(["text-too-long"]);
    expect(found[0]!.message).toMatch(/above 2,000,000 none is read/);
  });

  test("the limit itself is read", () => {
    const text = `${standardLibrary}#${" ".repeat(longestText - standardLibrary.length - 2)}x`;
    expect(text.length).toBe(longestText);
    expect(names(text)).toEqual(["text-too-long"]); // its last line
    expect(findings(text)[0]!.message).toMatch(/^This line holds .* nothing in this declaration is checked/);
  });
});

const declarations = process.env.MISCE_LONG ? 100_000 : 10_000;

describe("below the limits everything is read", () => {
  const line = (text: string) => `${text}\n`.repeat(mb / 5 / (text.length + 1));
  const texts: Record<string, string> = {
    "short words": line("a ".repeat(500)),
    "short lines": "a\n".repeat(mb / 50),
    "open braces": line("{".repeat(1000)),
    "nested blocks": "a {\n".repeat(mb / 50),
    "NULs between letters": line("a\0".repeat(500)),
    "a long line": `x${"\u00A0".repeat(mb)}x`,
    apostrophes: line("'x".repeat(500)),
    "fractions and powers": line("1/2 10^3 1½ 10 000 ".repeat(50)),
    "zero-width marks": line("a\u200B".repeat(500)),
    "halves of pairs": line("a\uD800 ".repeat(300)),
    "one number of a million figures": `stock x {\n  fill ${"9".repeat(mb)} mL\n}\n`,
    [`${declarations} declarations`]: Array.from({ length: declarations }, (_, i) => `drug d${i} {\n}\n`).join(""),
  };
  // The bound is loose, for a machine that others use as well; a quadratic walk takes minutes.
  test.each(Object.entries(texts))("%s", { timeout: 180_000 }, (_, text) => {
    expect(text.length).toBeLessThanOrEqual(longestText);
    const found = findings(text);
    expect(found.length).toBeGreaterThan(0);
    for (const { message, span } of found) {
      expect(message.length).toBeLessThan(3_000);
      expect(span.end).toBeLessThanOrEqual(text.length);
    }
  });
});

describe("characters that deceive", () => {
  const order = "dose            4 g per bag";
  test.each<[string, string, string, string]>([
    ["an override of direction in a title", 'title  "Magnesium', 'title  "\u202EMagnesium', "unseen-character"],
    ["an isolate in a comment", "  order {", "  order {  # \u2066x\u2069", "unseen-character"],
    [
      "a zero-width blank in a name",
      "magnesium-ampoule\n    bag",
      "magnesium\u200B-ampoule\n    bag",
      "unseen-character",
    ],
    ["a soft hyphen in a name", "magnesium-ampoule\n    bag", "magne\u00ADsium-ampoule\n    bag", "unseen-character"],
    ["a NUL in a text", 'title  "Magnesium', 'title  "Mag\0nesium', "unseen-character"],
    ["a lost character", 'title  "Magnesium', 'title  "M\uFFFDgnesium', "unseen-character"],
    ["half of a pair", 'title  "Magnesium', 'title  "M\uD83Dagnesium', "unseen-character"],
    ["a Cyrillic a in a name", "magnesium-ampoule\n    bag", "m\u0430gnesium-ampoule\n    bag", "foreign-letter"],
    ["a Greek o in a title", 'title  "Magnesium', 'title  "Magnesium \u03BFx m\u03BFde', "foreign-letter"],
    [
      "a hyphen that does not break in a name",
      "magnesium-ampoule\n    bag",
      "magnesium\u2011ampoule\n    bag",
      "foreign-letter",
    ],
    ["a full-width figure", order, order.replace("4", "\uFF14"), "foreign-letter"],
  ])("%s", (_, from, to, name) => {
    const text = standardLibrary.replace(from, () => to);
    expect(text).not.toBe(standardLibrary);
    const found = findings(text).filter((f) => f.name === name);
    expect(found.length).toBeGreaterThan(0);
    const fixed = found
      .flatMap((f) => f.fixes.slice(0, 1).flatMap((fix) => fix.edits))
      .sort((a, b) => b.span.start - a.span.start)
      .reduce((t, e) => t.slice(0, e.span.start) + e.text + t.slice(e.span.end), text);
    if (!/lost|half/.test(_)) expect(names(fixed)).toEqual([]);
  });

  test("what belongs to other writing, emoji or a joined file is left alone", () => {
    const text = `\uFEFF${standardLibrary.replace("  order {", "  order {  # 👩\u200D⚕ µ é")}\n\uFEFF# next`;
    expect(names(text)).toEqual([]);
  });

  test("spaces of any width between words and before units are read as one blank", () => {
    for (const space of ["\u00A0", "\u202F", "\u2009", "\u2003", "\u3000", "\t"]) {
      expect(
        names(standardLibrary.replace(order, order.replace("4 g per bag", `4${space}g${space}per${space}bag`))),
      ).toEqual([]);
    }
  });
});

describe("layouts of other machines", () => {
  test.each([
    ["CRLF", "\r\n"],
    ["CR only", "\r"],
  ])("%s", (_, newline) => {
    expect(names(standardLibrary.replaceAll("\n", newline))).toEqual([]);
  });

  test("mixed newlines", () => {
    let i = 0;
    expect(names(standardLibrary.replace(/\n/g, () => ["\n", "\r\n", "\r"][i++ % 3]!))).toEqual([]);
  });

  test("a text in UTF-16 that was read as bytes is told, not passed over", () => {
    const wide = Buffer.from(`\uFEFF${standardLibrary}`, "utf16le").toString("latin1");
    expect(names(wide)).toContain("unseen-character");
    expect(findings(wide).some((f) => f.severity === "error")).toBe(true);
  });
});

describe("names and figures without measure", () => {
  test("a name of 10,000 letters", () => {
    const long = `m${"x".repeat(9_999)}`;
    const found = findings(standardLibrary.replaceAll("magnesium-ampoule", long));
    for (const f of found) expect(f.message.length, f.name).toBeLessThan(3_000);
  });

  test.each(["9".repeat(mb), `0.${"0".repeat(mb)}1`, `1${",000".repeat(mb / 4)}`])(
    "a figure of a million digits",
    (figure) => {
      const found = names(standardLibrary.replace("4 g per bag", `${figure} g per bag`));
      // A line of that length is not read at all, and that is said.
      expect(found).toEqual(["text-too-long"]);
    },
  );
});
