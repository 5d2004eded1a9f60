/**
 * A line that cannot be read is told at its place, and what would only say again that it is missing is left out; the recipe is never
 * clean for that. What a careful colleague would say of a line that nobody can read: common practice.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { example, powderExample, standardLibrary } from "../../language/checks/example.ts";
import { Library } from "../../language/library.ts";
import type { Finding } from "../../shared/finding.ts";
import { findingsOf } from "./findings-of.ts";

const asOf = "2026-11-25";

/** The lines of a text that state something, with where each begins. */
function linesOf(text: string): { at: number; line: string }[] {
  let at = 0;
  return text.split("\n").flatMap((line) => {
    const here = { at, line };
    at += line.length + 1;
    return /^\s+[a-z]/.test(line) && !line.trimEnd().endsWith("{") ? [here] : [];
  });
}

/** The first word spelt wrong; garbage for the first figure; a line that is like none. */
const breaks: readonly [how: string, of: (line: string) => string][] = [
  ["its first word", (line) => line.replace(/^(\s+\S)/, "$1q")],
  ["its figure", (line) => line.replace(/(?<=\s)\d[\d.,]* [A-Za-z/]+/, "1o mg")],
  ["all of it", (line) => line.replace(/^(\s+).*$/, "$1zzz 4")],
];

function broken(text: string): { name: string; start: number; end: number; text: string }[] {
  return linesOf(text).flatMap(({ at, line }) =>
    breaks.flatMap(([how, of]) => {
      const other = of(line);
      // What a text between quotes says is not read as a figure.
      if (other === line || /"[^"]*1o mg/.test(other)) return [];
      const whole = text.slice(0, at) + other + text.slice(at + line.length);
      return [{ name: `${how}: ${line.trim()}`, start: at, end: at + other.length, text: whole }];
    }),
  );
}

/** A name of materials spelt wrong is a good name: the steps that use the right one are told. */
const isRoot = (f: Finding, { start, end }: { start: number; end: number }) =>
  f.severity === "error" && ((f.span.start <= end && f.span.end >= start) || f.name === "unknown-thing");

describe.each([
  ["a solution", standardLibrary],
  ["a powder", powderExample()],
])("%s, all in one file", (_, text) => {
  const from = text.indexOf("\nrecipe ");
  test.each(broken(text).filter(({ start }) => start > from))("$name", (each) => {
    const found = findingsOf(each.text);
    expect(found.some((f) => isRoot(f, each))).toBe(true);
    expect(found.map((f) => f.name).length).toBeLessThanOrEqual(2);
  });
});

const root = new URL("../../samples/library/", import.meta.url).pathname;

function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? filesIn(path) : path.endsWith(".misce") ? [path] : [];
  });
}

describe("the sample library", () => {
  const library = new Library({ asOf });
  const texts = new Map(filesIn(root).map((file) => [file, readFileSync(file, "utf8")]));
  for (const [file, text] of texts) library.open(file, text);

  const recipes = ["vancomycin-loading", "epidural-levobupivacaine-fentanyl", "digoxin-40mcg", "phosphate-calcium"];
  test.each(recipes)("%s: one or two findings for each line that cannot be read", (name) => {
    const file = join(root, "recipes", `${name}.misce`);
    const right = texts.get(file)!;
    // The steps of an order with a range are followed many times, and are broken in the other recipes.
    const end = right.includes(" in steps of ") ? right.indexOf("  steps {") : right.length;
    for (const each of broken(right).filter(({ start }) => start < end)) {
      library.change(file, each.text);
      const found = library.findings(file).filter((f) => !f.silenced);
      expect(
        found.some((f) => isRoot(f, each)),
        each.name,
      ).toBe(true);
      expect(found.length, `${each.name}: ${found.map((f) => f.name)}`).toBeLessThanOrEqual(2);
    }
    library.change(file, right);
  });

  /** The name of the declaration in which a place of a text stands. */
  const nameAt = (text: string, at: number) => [...text.slice(0, at).matchAll(/^\w+ (\S+) \{/gm)].at(-1)?.[1];
  /** What nothing is computed from. */
  const isIdle = (line: string) => /^[^:]*(first word|figure): (note|name|source|invented|approvals) /.test(line);

  test.each(["drugs/magnesium-sulfate", "stock/powder-vials", "fluids"])(
    "%s: what cannot be read there is said once in each recipe that rests on it",
    (name) => {
      const file = join(root, `${name}.misce`);
      const right = texts.get(file)!;
      for (const each of broken(right)) {
        library.change(file, each.text);
        expect(
          library.findings(file).some((f) => isRoot(f, each)),
          each.name,
        ).toBe(true);
        for (const other of texts.keys()) {
          if (!other.includes("/recipes/")) continue;
          const found = library.findings(other).filter((f) => !f.silenced);
          const isUser = new RegExp(` ${nameAt(right, each.start)?.replaceAll(".", "\\.")}$`, "m").test(
            texts.get(other)!,
          );
          if (isUser && !isIdle(each.name)) expect(found.length, `${each.name}, ${other}`).toBeGreaterThan(0);
          // A product without the drug's own form or ion leaves a figure uncomputed as well.
          expect(found.length, `${each.name}, ${other}: ${found.map((f) => f.name)}`).toBeLessThanOrEqual(2);
          for (const { message } of found)
            expect(message, each.name).not.toMatch(/states no|declares no|holds no powder/);
        }
      }
      library.change(file, right);
    },
  );

  test("a device whose kind cannot be read is no connector: each recipe says that it is not known", () => {
    const file = join(root, "devices.misce");
    const right = texts.get(file)!;
    library.change(file, right.replace("  kind        cap", "  kind        capp"));
    const users = [...texts].filter(([other, text]) => other.includes("/recipes/") && text.includes(" syringe-cap"));
    expect(users.length).toBeGreaterThan(0);
    for (const [other] of users) {
      const found = library.findings(other);
      expect(found.map((f) => f.name)).toEqual(["unknown-name"]);
      expect(found[0]!.message).toContain("`kind` cannot be read");
    }
    library.change(file, right);
  });

  test("a rate that cannot be read is not said to be missing", () => {
    const file = join(root, "drugs/vancomycin.misce");
    const right = texts.get(file)!;
    library.change(file, right.replaceAll(/^ {2}rate /gm, "  rrate"));
    const found = library.findings(join(root, "recipes/vancomycin-1g.misce"));
    expect(found.map((f) => f.name)).toEqual(["unknown-name"]);
    library.change(file, right);
  });

  test("a line of the site that cannot be read is said in each recipe, and only there", () => {
    const file = join(root, "site.misce");
    const right = texts.get(file)!;
    library.change(file, right.replace("tolerance       dose 5 %", "tolerence       dose 2 %"));
    for (const other of texts.keys()) {
      const found = library.findings(other).filter((f) => !f.silenced);
      if (other.includes("/recipes/")) expect(found.map((f) => f.name)).toEqual(["unknown-name"]);
      else if (other !== file) expect(found).toEqual([]);
    }
    library.change(file, right);
  });

  test("a lot that cannot be read, the only one of its product, is no lot", () => {
    const file = join(root, "lots.misce");
    const right = texts.get(file)!;
    library.change(file, right.replace(/(lots digoxin-ampoule \{\n\s+)lot/, "$1lott"));
    expect(library.findings(join(root, "recipes/digoxin-40mcg.misce")).map((f) => f.name)).toEqual(["no-lot-on-shelf"]);
    library.change(file, right);
  });

  test("a limit whose condition cannot be read is not taken for one without", () => {
    const file = join(root, "drugs/vancomycin.misce");
    const right = texts.get(file)!;
    library.change(file, right.replace(/^( {2}rate .*)$/m, "$1  when weigt 5"));
    expect(library.findings(join(root, "recipes/vancomycin-1g.misce")).map((f) => f.name)).toContain("unknown-name");
    library.change(file, right);
  });
});

test("what is missing of a line that can be read is told as ever", () => {
  const names = (text: string) => findingsOf(text).map((f) => f.name);
  expect(names(example(["    disinfect bag\n", ""]))).toEqual(["entry-not-disinfected"]);
  expect(names(example(["    disinfect bag\n", "    inspctt bag\n"]))).toEqual([
    "unknown-verb",
    "entry-not-disinfected",
  ]);
  expect(names(example(["  compatible     sodium-chloride-0.9\n", ""]))).toEqual(["compatibility-not-declared"]);
});

test("kept quiet by the site, what a monograph lacks hides no line that cannot be read", () => {
  const text = example(
    ["  compatible     sodium-chloride-0.9\n", "  compatibel     sodium-chloride-0.9\n"],
    [
      "  role           pharmacist\n",
      '  role           pharmacist\n  severity       monograph-incomplete off\n    because "told on paper"\n',
    ],
  );
  const start = text.indexOf("drug magnesium-sulfate {");
  const end = text.indexOf("\n}\n", start) + 3;
  const library = new Library({ asOf });
  library.open("a.misce", text.slice(0, start) + text.slice(end));
  library.open("b.misce", text.slice(start, end));
  expect(library.findings("a.misce").map((f) => f.name)).toEqual(["unknown-name"]);
});
