/** Random three-way merges held against facts that are counted without the program; the command re-checks what it gives out. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { mergeCommand } from "../../client/cli/merge-command.ts";
import { isNotMergeable, mergeTexts } from "../../language/compare/merge-texts.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { conflictFaultsOf, faultsOf, type Sides } from "./merge-oracle.ts";
import { libraryOf, sampleTexts } from "./sample-library.ts";

const isLong = process.env.MISCE_LONG === "1";
const texts = sampleTexts();
const names = [...texts.keys()];

type Pick = (below: number) => number;

/** Seeded, so that a failure can be seen again. */
function random(seed: number): Pick {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** Rows of facts and steps; a source that opens its block apart. */
function rowsOf(lines: readonly string[]): number[] {
  return lines.flatMap((line, at) =>
    /^ +[^#\s}]/.test(line) && !/[{}]/.test(line) && !/^ +source /.test(line) ? [at] : [],
  );
}

const edits: ((lines: string[], pick: Pick) => void)[] = [
  function figure(lines, pick) {
    const found = rowsOf(lines).filter((at) => /(?<= )\d+(?= )/.test(lines[at]!));
    const at = found[pick(found.length)];
    if (at !== undefined) lines[at] = lines[at]!.replace(/(?<= )\d+(?= )/, String(1 + pick(900)));
  },
  function takenOut(lines, pick) {
    const found = rowsOf(lines);
    lines.splice(found[pick(found.length)]!, 1);
  },
  function noted(lines, pick) {
    const heads = lines.flatMap((line, at) =>
      /^(?:drug|stock|recipe|fluid|device|site)\b.*\{$/.test(line) ? [at] : [],
    );
    let at = heads[pick(heads.length)];
    if (at === undefined) return;
    at += /^ +source /.test(lines[at + 1] ?? "") ? 2 : 1;
    lines.splice(at, 0, `  note  "read ${pick(100)}"`);
  },
  function stepNoted(lines, pick) {
    const at = lines.findIndex((line) => /^ +steps \{/.test(line));
    if (at >= 0) lines.splice(at + 1 + pick(8), 0, `    note "seen ${pick(100)}"`);
  },
  function movedOn(lines, pick) {
    const found = rowsOf(lines).filter((at) => rowsOf(lines).includes(at + 1));
    const at = found[pick(found.length)];
    if (at !== undefined) lines.splice(at, 2, lines[at + 1]!, lines[at]!);
  },
  function otherSource(lines, pick) {
    const found = lines.flatMap((line, at) => (/^ +source /.test(line) && /\{$/.test(lines[at - 1]!) ? [at] : []));
    const at = found[pick(found.length)];
    if (at !== undefined) lines[at] = `${/^ +/.exec(lines[at]!)![0]}source  kestrel-guide "page ${pick(50)}"`;
  },
  function noSource(lines, pick) {
    const found = lines.flatMap((line, at) => (/^ +source /.test(line) && /\{$/.test(lines[at - 1]!) ? [at] : []));
    const at = found[pick(found.length)];
    if (at !== undefined) lines.splice(at, 1);
  },
  function commented(lines, pick) {
    const found = rowsOf(lines);
    lines.splice(found[pick(found.length)]!, 0, `    # note ${pick(100)}`);
  },
  function laidOut(lines, pick) {
    const found = rowsOf(lines);
    const at = found[pick(found.length)]!;
    lines[at] = `  ${lines[at]!.replace(/ {2,}/g, "   ")}`;
  },
  function canonical(lines) {
    lines.splice(0, lines.length, ...formatText(lines.join("\n")).split("\n"));
  },
];

function edited(text: string, pick: Pick): string {
  const lines = text.split("\n");
  for (let n = 1 + pick(3); n > 0; n--) edits[pick(edits.length)]!(lines, pick);
  return lines.join("\n");
}

function sidesOf(base: string, pick: Pick): Sides {
  return { base, ours: edited(base, pick), theirs: edited(base, pick) };
}

function judged(sides: Sides): "clean" | "conflict" | "by lines" {
  const merged = mergeTexts(sides.base, sides.ours, sides.theirs);
  if (isNotMergeable(merged)) return "by lines";
  if (merged.conflicts.length === 0) {
    expect(faultsOf(sides, merged.text)).toEqual([]);
    return "clean";
  }
  expect(conflictFaultsOf(sides, merged.text)).toEqual([]);
  return "conflict";
}

test("no merge loses a fact, changes one that one side alone wrote, or says what nobody wrote", {
  timeout: 900_000,
}, () => {
  const rounds = isLong ? 1_000 : 200;
  const tally = { clean: 0, conflict: 0, "by lines": 0 };
  for (let seed = 1; seed <= rounds; seed++) {
    const pick = random(seed * 15_485_863);
    // Every fifth: a library of two files that both sides edit, each file merged as git hands it over.
    const files = seed % 5 === 0 ? [pick(names.length), pick(names.length)] : [pick(names.length)];
    for (const file of new Set(files)) {
      const sides = sidesOf(texts.get(names[file]!)!, pick);
      try {
        tally[judged(sides)]++;
      } catch (error) {
        throw new Error(`seed ${seed}, ${names[file]}: ${(error as Error).message}`);
      }
    }
  }
  if (isLong) process.stdout.write(`${JSON.stringify(tally)}\n`);
  expect(tally.clean).toBeGreaterThan(rounds / 2);
  expect(tally.conflict).toBeGreaterThan(rounds / 30);
  expect(tally["by lines"]).toBeLessThan(rounds / 20);
});

test("the oracle itself tells what is lost, invented, changed or put in another order", () => {
  const recipe = (dose: string, ...steps: string[]) =>
    `recipe r {\n  order {\n    dose  ${dose}\n  }\n  steps {\n${steps.map((s) => `    ${s}\n`).join("")}  }\n}\n`;
  const base = recipe("1 g", "mix bag", "seal bag");
  const sides = { base, ours: recipe("2 g", "mix bag", "seal bag"), theirs: recipe("1 g", "seal bag", "mix bag") };
  expect(faultsOf(sides, recipe("2 g", "seal bag", "mix bag"))).toEqual([]);
  expect(faultsOf(sides, recipe("1 g", "seal bag", "mix bag"))).toHaveLength(2);
  expect(faultsOf(sides, recipe("2 g", "mix bag", "seal bag"))).toHaveLength(1);
  expect(faultsOf(sides, recipe("2 g", "seal bag"))).toHaveLength(1);
  expect(faultsOf(sides, recipe("2 g", "seal bag", "mix bag", "label bag"))).toHaveLength(1);
  const two = recipe("2 g", "mix bag").replace("dose  2 g", "dose  2 g\n    dose  3 g");
  expect(faultsOf({ base, ours: recipe("2 g", "mix bag"), theirs: recipe("3 g", "mix bag") }, two)).toHaveLength(1);
});

describe("the command", () => {
  const folder = mkdtempSync(join(tmpdir(), "misce-merge-oracle-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const library = join(folder, "library");
  cpSync(join(import.meta.dirname, "../../samples/library"), library, { recursive: true });

  async function merged(name: string, sides: Sides) {
    const paths = (["base", "ours", "theirs"] as const).map((side) => {
      writeFileSync(join(folder, side), sides[side]);
      return join(folder, side);
    }) as [string, string, string];
    let said = "";
    const write = (text: string) => {
      said += text;
    };
    const outlet = { write, isTerminal: false, columns: undefined };
    const surroundings = {
      cwd: library,
      env: {},
      stdout: outlet,
      stderr: outlet,
      readStdin: () => Buffer.alloc(0),
      now: () => new Date(),
    };
    const status = await mergeCommand(paths, { path: name, asOf: "2026-11-25" }, engine, surroundings);
    return { status, said, text: readFileSync(paths[1], "utf8") };
  }

  /** Errors of one file by check and declaration. */
  function errorsIn(name: string, text: string): Map<string, number> {
    const counts = new Map<string, number>();
    for (const f of libraryOf(new Map([...texts, [name, text]])).findings(name)) {
      const key = `${f.name} ${f.subject}`;
      if (f.severity === "error" && !f.silenced) counts.set(key, (counts.get(key) ?? 0) + 1);
    }
    return counts;
  }

  test("gives out a whole merge only where it brings no error that neither side has", {
    timeout: 900_000,
  }, async () => {
    const rounds = isLong ? 1_000 : 25;
    const recipes = names.filter((name) => name.startsWith("recipes/"));
    for (let seed = 1; seed <= rounds; seed++) {
      const pick = random(seed * 32_452_843);
      const name = recipes[pick(recipes.length)]!;
      const sides = sidesOf(texts.get(name)!, pick);
      const { status, said, text } = await merged(name, sides);
      const told = `seed ${seed}, ${name}: ${said}`;
      if (/given two meanings|by lines/.test(said)) expect(status, told).toBe(1);
      else {
        const [mine, yours, both] = [sides.ours, sides.theirs, text].map((each) => errorsIn(name, each)) as [
          Map<string, number>,
          Map<string, number>,
          Map<string, number>,
        ];
        const isNew = [...both].some(([key, n]) => n > Math.max(mine.get(key) ?? 0, yours.get(key) ?? 0));
        // One that stands for another of its kind is no news to the command; one of a new kind always is.
        if (!isNew) expect(status, told).toBe(0);
        if ([...both.keys()].some((key) => !mine.has(key) && !yours.has(key))) expect(status, told).toBe(1);
      }
    }
  });

  /** Furosemide: at most 4 mg/min. 50 mg in 30 min is 1.67, 100 mg in 30 min 3.33, 50 mg in 15 min 3.33, 100 mg in 15 min 6.67. */
  test("two sound edits that together break a limit fail, whoever made which", async () => {
    const name = "recipes/furosemide-50mg.misce";
    const base = texts.get(name)!;
    const faster = base.replace("30 min", "15 min");
    const larger = base
      .replace(/(dose +)50 mg/, "$1100 mg")
      .replace("draw 50 mg", "draw 100 mg")
      .replace("= 5 mL", "= 10 mL")
      .replace("0.4762", "0.9091")
      .replace("Furosemide 50 mg", "Furosemide 100 mg")
      .replace("syringe-5mL", "syringe-10mL");
    for (const text of [base, faster, larger]) expect([...errorsIn(name, text)]).toEqual([]);
    for (const [ours, theirs] of [
      [faster, larger],
      [larger, faster],
      [formatText(faster).replace("{", "{  # read"), larger],
    ] as const) {
      const { status, said } = await merged(name, { base, ours, theirs });
      expect(status).toBe(1);
      expect(said).toMatch(/each side is sound, but together they are not: rate-above-limit/);
    }
    expect(
      (await merged(name, { base, ours: faster, theirs: base.replace("inverting 10", "inverting 12") })).status,
    ).toBe(0);
  });
});

describe("a source that speaks for a whole block", () => {
  const drug = (source: string, rows: string) => `drug a {\n${source}  name  "a"  source g "name"\n${rows}}\n`;
  const [one, two] = ['  source  g "one"\n', '  source  g "two"\n'];

  test("changed here, and a fact written under the former one there: the fact keeps it by its own words", () => {
    expect(mergeTexts(drug(one, ""), drug(two, ""), drug(one, '  note  "new"\n'))).toEqual({
      text: drug(two, '  note  "new"\n      source g "one"\n'),
      conflicts: [],
    });
    expect(mergeTexts(drug(one, ""), drug(one, '  note  "new"\n'), drug("", ""))).toMatchObject({
      text: drug("", '  note  "new"\n      source g "one"\n'),
      conflicts: [],
    });
  });

  test("new here, where a fact was written without any there: nothing is given out, for nobody wrote that it holds for it", () => {
    const merged = mergeTexts(drug("", ""), drug(one, ""), drug("", "  density  1 g/mL\n"));
    expect(merged).toMatchObject({ reason: expect.stringMatching(/look at drug a/) });
  });

  test("on both sides of a conflict each fact keeps its own", () => {
    const merged = mergeTexts(
      drug(one, "  density  1 g/mL\n"),
      drug(two, "  density  1 g/mL\n"),
      drug(one, "  density  2 g/mL\n"),
    );
    expect(merged).toMatchObject({ conflicts: [{ theirs: "density  2 g/mL" }] });
    expect("text" in merged && merged.text).toContain('  density  2 g/mL\n      source g "one"\n>>>>>>> theirs');
  });
});
