import { describe, expect, test } from "vitest";
import { Library } from "../../language/library.ts";
import { blankClass } from "../../language/syntax/characters.ts";
import { splitChunks } from "../../language/syntax/chunks.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { parseChunk } from "../../language/syntax/parser.ts";
import { allTokens, printTree } from "../../language/syntax/print.ts";
import { toldBy } from "./same-reading.ts";
import { samples } from "./sample-texts.ts";
import { seeds } from "./seeds.ts";

const documents = process.env.MISCE_LONG ? 100_000 : 400;
/** Of processor time, so that a busy machine is not taken for a text that never ends. */
const longestMilliseconds = 4_000;

const sources = [...seeds, ...samples.map((s) => s.text)];

/** mulberry32: small, seeded, the same on every machine. */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}

const pieces = [
  ..."{}\"#=,.-:/%@×½^<>≤'’ \t\r\n\u00A0\u2009\uFEFF\u0000\u2028\u201C\u201D\\x1",
  "\uD83D",
  "\uDE00",
  "\r\n",
  " source ",
  "\nuntil ",
  "when",
  "steps {",
  "\nrecipe z {\n",
  "\nlots {",
  " million",
  " M units",
  "% w/v",
  "2027-04",
  "1:10",
  "5 ",
  "é",
  "\u0430",
  "\u202E",
  "\u200B",
  " international units",
  "1/2 ",
  "10^6",
  " 000",
  "\n  preparation bag {\n",
  "\u2011",
];

function mutated(seed: number): string {
  const pick = random(seed);
  let text: string = sources[pick(sources.length)]!;
  for (let turns = 1 + pick(6); turns > 0; turns--) text = mutatedOnce(text, pick);
  return text;
}

function mutatedOnce(text: string, pick: (below: number) => number): string {
  const at = pick(text.length + 1);
  const length = 1 + pick(pick(4) === 0 ? 200 : 4);
  switch (pick(7)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(at);
    case 2: {
      const lines = text.split("\n");
      const from = pick(lines.length);
      const [moved] = lines.splice(from, 1);
      lines.splice(pick(lines.length + 1), 0, moved!);
      return lines.join("\n");
    }
    case 3:
      return text.slice(0, at) + text.slice(at + length);
    case 4:
      return text.slice(0, at + length) + text.slice(at);
    case 5:
      return text.slice(0, at) + pieces[pick(pieces.length)]! + text.slice(at);
    default:
      return text.slice(0, at) + pieces[pick(pieces.length)]! + text.slice(at + length);
  }
}

function judge(text: string): void {
  const tree = parseChunk(text);
  expect(printTree(tree)).toBe(text);
  inOrder(text, tree);
  const chunks = splitChunks(text);
  expect(chunks.map((c) => c.text).join("")).toBe(text);
  sameByChunk(tree, chunks);
  const formatted = formatText(text);
  expect(formatText(formatted)).toBe(formatted);
  const told = toldBy(tree);
  expect(toldBy(parseChunk(formatted))).toEqual(told);
}

/** All checks on: no crash, and every place lies in the text. */
function throughLibrary(text: string): void {
  const library = new Library({ asOf: "2026-11-25" });
  library.open("a.misce", text);
  for (const { span, fixes, message, name } of library.findings("a.misce")) {
    const places = [span, ...fixes.flatMap((fix) => fix.edits.map((e) => e.span))];
    if (!places.every((p) => p.start >= 0 && p.start <= p.end && p.end <= text.length))
      expect.fail(`${name} lies outside the text.`);
    if (message === "" || /undefined|NaN|\[object/.test(message)) expect.fail(`${name} says: ${message}`);
  }
}

const onlyBlanks = new RegExp(`^[${blankClass}\\r\\n\\uFEFF]*$`);

function inOrder(text: string, tree: ReturnType<typeof parseChunk>): void {
  const spans = [...allTokens(tree), ...tree.comments].sort((a, b) => a.start - b.start);
  let at = 0;
  for (const { start, end } of spans) {
    if (!onlyBlanks.test(text.slice(at, start)) || start < at || end <= start) {
      expect.fail(`Between ${at} and ${start} stands something that is no blank.`);
    }
    at = end;
  }
}

/** A file read whole and a file read chunk by chunk say the same. */
function sameByChunk(tree: ReturnType<typeof parseChunk>, chunks: ReturnType<typeof splitChunks>): void {
  const parts = chunks.map((c) => toldBy(parseChunk(c.text)));
  expect({
    entries: parts.flatMap((p) => p.entries),
    comments: parts.flatMap((p) => p.comments),
    problems: parts.flatMap((p) => p.problems),
  }).toEqual(toldBy(tree));
}

describe("any text", () => {
  test(`${documents} mutated documents are read, print back, and format without a change of meaning`, {
    timeout: 3_600_000,
  }, async () => {
    let slowest = 0;
    for (let seed = 1; seed <= documents; seed++) {
      // The test runner gives up on a worker that stays silent for a minute.
      if (seed % 500 === 0) await new Promise((resolve) => setImmediate(resolve));
      const text = mutated(seed);
      const begun = process.cpuUsage();
      try {
        judge(text);
        throughLibrary(text);
      } catch (error) {
        throw new Error(`Document ${seed}: ${JSON.stringify(text)}`, { cause: error });
      }
      const { user, system } = process.cpuUsage(begun);
      slowest = Math.max(slowest, (user + system) / 1000);
    }
    expect(slowest).toBeLessThan(longestMilliseconds);
  });

  test.each(seeds.map((text, i) => [i, text] as const))(
    "seed %i cut off at every character",
    { timeout: 60_000 },
    (_, text) => {
      for (let end = 0; end <= text.length; end++) judge(text.slice(0, end));
    },
  );
});
