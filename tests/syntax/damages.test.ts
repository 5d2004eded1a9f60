/**
 * A broken line spoils only itself: single damages of the sample recipes give few findings, near the damage, and never silence one.
 * The bounds are what was reached; a recipe that lacks a step has its true findings too, so they are not all one.
 */
import { describe, expect, test } from "vitest";
import { Library } from "../../language/library.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { LineIndex } from "../../language/syntax/lines.ts";
import { parseChunk } from "../../language/syntax/parser.ts";
import { printTree } from "../../language/syntax/print.ts";
import { type Damage, type DamageKind, damageKinds, damagesOf } from "./damages.ts";
import { toldBy } from "./same-reading.ts";
import { samples } from "./sample-texts.ts";

const own = samples.filter((s) => s.path.startsWith("library/"));
/** One in so many of a kind is tried, of rare kinds more; all of them with MISCE_LONG. */
const rare: readonly DamageKind[] = ["open-brace-deleted", "close-brace-deleted", "heads-swapped", "quote-deleted"];
const oneIn = (kind: DamageKind) => (process.env.MISCE_LONG ? 1 : rare.includes(kind) ? 3 : 13);

interface Outcome extends Damage {
  path: string;
  findings: number;
  errors: number;
  /** Lines between the damage and the finding next to it. */
  distance: number;
}

const outcomes = new Map<DamageKind, Outcome[]>(damageKinds.map((kind) => [kind, []]));
const library = new Library({ asOf: "2026-11-25" });
for (const { path, text } of own) library.open(path, text);
const turns = new Map<DamageKind, number>();
for (const { path, text } of own.filter((s) => s.path.startsWith("library/recipes/"))) {
  for (const damage of damagesOf(text)) {
    const turn = turns.get(damage.kind) ?? 0;
    turns.set(damage.kind, turn + 1);
    if (turn % oneIn(damage.kind) === 0) outcomes.get(damage.kind)!.push(outcome(path, damage));
  }
  library.change(path, text);
}

function outcome(path: string, damage: Damage): Outcome {
  library.change(path, damage.text);
  const found = library.findings(path).filter((f) => !f.silenced);
  const lines = new LineIndex(damage.text);
  const away = ({ span }: (typeof found)[number]) =>
    Math.max(0, lines.place(span.start).line - damage.line, damage.line - lines.place(span.end).line);
  const errors = found.filter((f) => f.severity === "error").length;
  return { ...damage, path, findings: found.length, errors, distance: Math.min(...found.map(away)) };
}

/** Most findings of one damage, of all but one in twenty, and of half of them. */
const most: Readonly<Record<DamageKind, [max: number, p95: number, median: number]>> = {
  "line-deleted": [9, 4, 1],
  "open-brace-deleted": [1, 1, 1],
  "close-brace-deleted": [1, 1, 1],
  "line-doubled": [10, 2, 1],
  "heads-swapped": [4, 4, 2],
  "line-halved": [9, 4, 1],
  "lines-joined": [11, 5, 1],
  "brace-inserted": [6, 1, 1],
  "quote-deleted": [5, 3, 2],
  "cut-off": [11, 9, 4],
};

/** Damages of braces and heads: they are no statement about the bench, and must be told as an error where they stand. */
const ofLayout: readonly DamageKind[] = [
  "open-brace-deleted",
  "close-brace-deleted",
  "brace-inserted",
  "quote-deleted",
  "cut-off",
];

const at = (sorted: readonly number[], part: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))]!;
const shown = ({ path, line, what, kind, findings, distance }: Outcome) =>
  `${path}:${line + 1} ${kind} \`${what}\`: ${findings} findings, the next ${distance} lines away`;

describe("single damages of the sample recipes", () => {
  test.each(damageKinds)("%s: few findings", (kind) => {
    const all = outcomes.get(kind)!;
    const counts = all.map((o) => o.findings).sort((a, b) => a - b);
    const [max, p95, median] = most[kind];
    expect(all.length).toBeGreaterThan(50);
    expect(all.filter((o) => o.findings > max).map(shown)).toEqual([]);
    expect(at(counts, 0.95)).toBeLessThanOrEqual(p95);
    expect(at(counts, 0.5)).toBeLessThanOrEqual(median);
  });

  test.each(ofLayout)("%s: told as an error, within two lines", (kind) => {
    const all = outcomes.get(kind)!;
    expect(all.filter((o) => o.errors === 0).map(shown)).toEqual([]);
    expect(all.filter((o) => o.distance > 2).map(shown)).toEqual([]);
  });

  test("a head that is deleted, halved or swapped is told as an error at its place", () => {
    const heads = ["line-deleted", "line-halved", "heads-swapped"] as const;
    const all = heads.flatMap((kind) => outcomes.get(kind)!).filter((o) => o.what.endsWith("{"));
    expect(all.length).toBeGreaterThan(20);
    // Of swapped heads of two examples each reads as the other: their titles are prose.
    const told = all.filter((o) => !(o.kind === "heads-swapped" && o.what.startsWith("example ") && o.findings === 0));
    expect(told.filter((o) => o.findings > 4 || o.distance > 1).map(shown)).toEqual([]);
    expect(told.filter((o) => o.errors === 0 && o.kind !== "heads-swapped").map(shown)).toEqual([]);
  });

  test("a damaged text prints back, and formatting neither mends it nor changes what it says", () => {
    for (const { text } of [...outcomes.values()].flat().filter((_, i) => i % 4 === 0)) {
      const tree = parseChunk(text);
      expect(printTree(tree)).toBe(text);
      const formatted = formatText(text);
      expect(toldBy(parseChunk(formatted))).toEqual(toldBy(tree));
      expect(formatText(formatted)).toBe(formatted);
    }
  });
});

describe("what is still found in a damaged recipe", () => {
  const path = "library/recipes/magnesium-4g.misce";
  const whole = own.find((s) => s.path === path)!.text;
  const names = (text: string) => {
    library.change(path, text);
    const found = library.findings(path).map((f) => f.name);
    library.change(path, whole);
    return found;
  };

  test.each([
    ["steps {", "  steps {\n", "head-missing"],
    ["order {", "  order {\n", "head-missing"],
    ["materials {", "  materials {\n", "head-missing"],
  ])("without `%s` a wrong claim in a step is told as before", (_, line, told) => {
    const wrong = whole.replace("= 8 mL", "= 0.8 mL");
    expect(names(wrong)).toEqual(["claim-differs"]);
    expect(names(wrong.replace(line, "")).sort()).toEqual(["claim-differs", told]);
  });

  test.each(["    expel air from syringe\n", "    disinfect bag\n", "    label bag\n"])(
    "and that `%s` is missing",
    (line) => {
      const wrong = whole.replace(line, "");
      const before = names(wrong);
      expect(before.length).toBeGreaterThan(0);
      expect(names(wrong.replace("  steps {\n", "")).sort()).toEqual([...before, "head-missing"].sort());
      const stray = wrong.replace("    disinfect mag\n", "    disinfect mag\n  }\n");
      expect(names(stray).sort()).toEqual([...before, "stray-closing-brace"].sort());
    },
  );

  test("the fix writes the missing head back", () => {
    const damaged = whole.replace("  steps {\n", "");
    library.change(path, damaged);
    const [edit] = library.findings(path)[0]!.fixes[0]!.edits;
    library.change(path, whole);
    expect(damaged.slice(0, edit!.span.start) + edit!.text + damaged.slice(edit!.span.end)).toBe(whole);
  });
});
