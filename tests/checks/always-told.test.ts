/**
 * A site may switch a finding off, but never so that something goes unread and nobody is told: with all that can be switched off
 * switched off, a figure without a value and steps whose figures are not known still give an error.
 */
import { describe, expect, test } from "vitest";
import { planOf } from "../../language/bench/plan.ts";
import { example } from "../../language/checks/example.ts";
import { allRuns } from "../../language/checks/judge-recipe.ts";
import { allChecks } from "../../language/checks/registry.ts";
import { Library } from "../../language/library.ts";
import { alwaysTold } from "../../language/model/always-told.ts";
import type { Declaration } from "../../language/model/declaration.ts";

const switchedOff = allChecks
  .filter((check) => !alwaysTold.has(check.name))
  .map((check) => `  severity  ${check.name} off\n    because "tried in a test"\n`)
  .join("");

/** The library of a text, with a site that wants to hear of nothing. */
function silenced(text: string): Library {
  const library = new Library({ asOf: "2026-11-25" });
  library.open(
    "a.misce",
    text.replace(/^site \{\n/m, (head) => head + switchedOff),
  );
  return library;
}

/** What in it has no value: figures as written, and recipes whose steps give no figures. */
function unread(library: Library): string[] {
  const declarations = library.chunks("a.misce").flatMap((c) => c.reading.declarations);
  return declarations.flatMap((declaration) => [
    ...figures(declaration),
    ...(declaration.kind === "recipe" && allRuns(declaration, library.surroundings()).some((run) => run.unknown)
      ? [`the figures of ${declaration.name.name}`]
      : []),
  ]);
}

function figures(declaration: Declaration): string[] {
  const steps = declaration.kind === "recipe" ? planOf(declaration).steps.map((s) => s.slots) : [];
  const found: string[] = [];
  const { chunk: _, substance: __, ...facts } = declaration as Declaration & { substance?: unknown };
  visit([facts, steps], found, new Set());
  return found;
}

function visit(value: unknown, found: string[], seen: Set<unknown>): void {
  if (typeof value !== "object" || value === null || seen.has(value)) return;
  seen.add(value);
  if (value instanceof Map) {
    for (const each of value.values()) visit(each, found, seen);
    return;
  }
  if ("quantity" in value && "written" in value && value.quantity === undefined) found.push(String(value.written));
  for (const each of Object.values(value)) visit(each, found, seen);
}

const errors = (library: Library) => library.findings("a.misce").filter((f) => f.severity === "error" && !f.silenced);

describe("the bad example of every check", () => {
  const unreadable = allChecks
    .map((check) => ({ name: check.name, library: silenced(check.bad) }))
    .filter(({ library }) => unread(library).length > 0);

  test("some have no value", () => expect(unreadable.length).toBeGreaterThan(5));
  test.each(unreadable.map((each) => [each.name, each.library] as const))("%s", (_, library) => {
    expect(errors(library), unread(library).join(", ")).not.toEqual([]);
  });
});

// Spellings of the published lists (tests/reference/measuring/error-prone-notation.json) and slips of a keyboard.
const spellings = [
  ...["1,00 g", "2 100 mg", "1.000.000 mg", "1,0000 mg", "4 G", "IV g", "04 g", "4-5 g", "4", "4 gg", "1.5.2 g"],
  ...["1,5 g", "5. g", "4 000 mg", "4 k mg", "4K mg", "4 M mg", "4M mg", "+4 g", "~4 g", "4 to 5 g", "O.5 g", "l g"],
  ...[
    "4 %",
    "4 g%",
    "2/3 g",
    "4 x 1 g",
    "4·5 g",
    "4'000 mg",
    "4_000 mg",
    "４ g",
    "٤ g",
    "4e3 mg",
    "0x4 g",
    "4000 mg/1",
  ],
];

describe("a figure that cannot be read", () => {
  test.each(spellings)("%s", (written) => {
    const places: [string, string][] = [
      ["4 g per bag", `${written} per bag`],
      ["draw 4 g from", `draw ${written} from`],
      ["500 mg/mL", written.includes("/") || /[%\d]$/.test(written) ? written : `${written}/mL`],
    ];
    for (const place of places) expect(errors(silenced(example(place))), place[1]).not.toEqual([]);
  });

  test("what is read, if unsafely, may be switched off", () => {
    expect(errors(silenced(example(["4 g per bag", "4.0 g per bag"])))).toEqual([]);
    expect(errors(silenced(example(["4 g per bag", "4g per bag"])))).toEqual([]);
    // Another figure than the steps bring, and told as that: it has been read.
    for (const written of ["1 1/2 g", "4 mgm"]) {
      const library = new Library({ asOf: "2026-11-25" });
      library.open("a.misce", example(["4 g per bag", `${written} per bag`]));
      const names = errors(library).map((f) => f.name);
      expect(names, written).toContain("dose-not-delivered");
    }
  });
});
