/**
 * How much a new user has to type: whole sample recipes written from an empty file with completion. One stroke is a key: a letter, a
 * new line with its indentation, a run of blanks (the layout is the formatter's), one press down in the list for each place, one to
 * accept. A suggestion is taken when that costs fewer strokes than typing what it writes.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { completionsAt } from "../../language/answers/completion.ts";
import type { Library } from "../../language/library.ts";
import { libraryOf, sampleRoot } from "./sample-library.ts";

/** The library as it is before the recipe exists. */
function libraryWithout(file: string): Library {
  return libraryOf((path) => path !== file);
}

/** Blanks count for nothing but that there are some: the formatter sets them. */
function sameStart(text: string, wanted: string): number | undefined {
  let at = 0;
  for (let i = 0; i < text.length; ) {
    if (/\s/.test(text[i]!)) {
      if (!/\s/.test(wanted[at] ?? "")) return undefined;
      while (i < text.length && /\s/.test(text[i]!)) i++;
      while (at < wanted.length && /\s/.test(wanted[at]!)) at++;
      continue;
    }
    if (text[i] !== wanted[at]) return undefined;
    i++;
    at++;
  }
  return at;
}

function strokesFor(text: string): number {
  return text.replace(/[ \t]*\n\s*/g, "\n").replace(/[ \t]+/g, " ").length;
}

interface Typed {
  strokes: number;
  /** What typing all of it takes, blanks and indentation counted as for strokes. */
  characters: number;
  taken: number;
}

/** @param most suggestions that are looked at; 1 is a user who takes the first or types on */
function typed(file: string, most: number): Typed {
  const wanted = readFileSync(file, "utf8");
  const library = libraryWithout(file);
  const stem = /([^/]+)\.misce$/.exec(file)![1]!;
  let at = 0;
  let strokes = 0;
  let taken = 0;
  while (at < wanted.length) {
    library.change(file, wanted.slice(0, at));
    const best = bestSuggestion(library, file, wanted, at, stem, most);
    if (best) {
      strokes += best.cost;
      at = best.to;
      taken++;
      continue;
    }
    const blanks = /^\s+/.exec(wanted.slice(at))?.[0].length ?? 0;
    strokes++;
    at += blanks > 0 ? blanks : 1;
  }
  return { strokes, characters: strokesFor(wanted), taken };
}

function bestSuggestion(library: Library, file: string, wanted: string, at: number, stem: string, most: number) {
  const lineStart = wanted.lastIndexOf("\n", at - 1) + 1;
  let best: { cost: number; to: number; saved: number } | undefined;
  const offered = completionsAt(library, file, at, stem);
  // An editor shows those that begin as is typed.
  const shown = offered.filter((s) => {
    const soFar = wanted.slice(s.start, at).replace(/\s+/g, " ").toLowerCase();
    return s.start >= lineStart && s.label.toLowerCase().startsWith(soFar);
  });
  for (const [place, s] of shown.slice(0, most).entries()) {
    const insert = s.insert.split("$0")[0]!.replace(/\n\s*\}\s*$/, "");
    const length = sameStart(insert, wanted.slice(s.start));
    if (length === undefined) continue;
    const to = s.start + length;
    // Only whole words: `bag` is not the beginning of `bag-2`.
    if (/[A-Za-z0-9.-]/.test(wanted[to] ?? "") && /[A-Za-z0-9.-]$/.test(insert)) continue;
    const cost = place + 1;
    const saved = strokesFor(wanted.slice(at, to)) - cost;
    if (saved > 0 && (!best || saved > best.saved)) best = { cost, to, saved };
  }
  return best;
}

/** Of each kind of preparation one, and those of all samples that take most strokes. */
const recipes = [
  "magnesium-4g",
  "oxytocin-10-units",
  "midazolam-300mcg",
  "digoxin-40mcg",
  "phosphate-calcium",
  "ceftriaxone-300mg-syringe",
  "lipid-20g-filtered",
  "vasopressin-50-units",
];

test.each([
  { who: "who takes the first suggestion or types on", most: 1 },
  { who: "who looks at eight suggestions", most: 8 },
])("an author $who makes fewer than 45 strokes for 100 that typing all of it takes, in every recipe", ({ most }) => {
  const ratios = recipes.map((name) => {
    const { strokes, characters, taken } = typed(`${sampleRoot}/recipes/${name}.misce`, most);
    const ratio = strokes / characters;
    console.log(`${name}: ${strokes} of ${characters}, ${ratio.toFixed(3)} (${taken} taken)`);
    return { name, ratio };
  });
  expect(ratios.filter(({ ratio }) => ratio >= 0.45)).toEqual([]);
});
