/** Formatting never changes meaning: the sample libraries, with their layout spoilt at random, say after formatting what they said before. */
import { describe, expect, test } from "vitest";
import { Library } from "../../language/library.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { parseChunk } from "../../language/syntax/parser.ts";
import { toldBy } from "./same-reading.ts";
import { samples } from "./sample-texts.ts";

const libraries = ["library/", "library-containment/"];

/** mulberry32, as in the other seeded tests. */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}

/** Other blanks between words, other indentation, blank lines and comments between statements; texts in quotes stay. */
function spoilt(text: string, seed: number): string {
  const pick = random(seed);
  const blanks = [" ", "  ", "\t", "   ", "\u00A0", " \u2003"];
  return text
    .split("\n")
    .flatMap((line, i, all) => {
      const body = line
        .trimStart()
        .replace(/"[^"]*"|#.*$| +/g, (run) => (run[0] === " " ? blanks[pick(blanks.length)]! : run));
      const laid = body === "" ? "" : `${" ".repeat(isHead(line) ? 0 : pick(9))}${body}${" ".repeat(pick(3))}`;
      const noted = pick(12) === 0 && body !== "" && !body.includes("#") ? `${laid} # note ${i}` : laid;
      const next = all[i + 1]?.trimStart() ?? "";
      // A blank or comment line above a trailing word would part it from its statement.
      return pick(10) === 0 && !/^(?:source|because|by|until|when)\b/.test(next)
        ? [noted, pick(2) ? "" : `  # line ${i}`]
        : [noted];
    })
    .join(["\n", "\r\n"][pick(2)]!);
}

function isHead(line: string): boolean {
  return /^[a-z].*\{$/.test(line);
}

/** Findings without their places. */
function told(texts: readonly { path: string; text: string }[]): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  for (const { path, text } of texts) library.open(path, text);
  return texts.flatMap(({ path }) =>
    library
      .findings(path)
      .map((f) => `${path} ${f.name} ${f.severity} ${f.subject} ${f.message} ${f.silenced?.because ?? ""}`),
  );
}

describe("formatting a text whose layout was spoilt", () => {
  const seeds = process.env.MISCE_LONG ? 200 : 1;

  test.each(libraries)("%s: the library says the same", (folder) => {
    const files = samples.filter((s) => s.path.startsWith(folder));
    const before = told(files);
    for (let seed = 1; seed <= seeds; seed++) {
      const formatted = files.map(({ path, text }, i) => ({ path, text: formatText(spoilt(text, seed * 1000 + i)) }));
      expect(told(formatted)).toEqual(before);
    }
  });

  test("the faulty samples say the same, each on its own", () => {
    for (const { path, text } of samples.filter((s) => s.path.startsWith("faulty/"))) {
      // The layout is what these show.
      if (/brace|long|continuation/.test(path)) continue;
      expect(told([{ path, text: formatText(text) }]), path).toEqual(told([{ path, text }]));
    }
  });

  test("tokens and comments stay letter by letter, and formatting twice changes nothing", () => {
    for (const [i, { path, text }] of samples.entries()) {
      const written = spoilt(text, i + 1);
      const formatted = formatText(written);
      expect(toldBy(parseChunk(formatted)), path).toEqual(toldBy(parseChunk(written)));
      expect(formatText(formatted), path).toBe(formatted);
    }
  });

  test("what is compared would show a change", () => {
    const file = samples.find((s) => s.path.endsWith("recipes/magnesium-2g.misce"))!;
    const others = samples.filter((s) => s.path.startsWith("library/") && s !== file);
    expect(told([...others, { ...file, text: file.text.replace("2 g", "3 g") }])).not.toEqual(told([...others, file]));
  });
});
