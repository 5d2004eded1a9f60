/** Random three-way merges: never a lost fact, never a fact that nobody wrote, never a silent choice between two meanings. */
import { describe, expect, test } from "vitest";
import { isNotMergeable, meaningKeys, mergeTexts } from "../../language/compare/merge-texts.ts";
import { formatText } from "../../language/syntax/formatter.ts";
import { sampleTexts } from "./sample-library.ts";

const texts = [...sampleTexts()];

/** Seeded, so that a failure can be seen again. */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

/** One edit that somebody could make: a figure, a line taken out, written twice, put in, moved, a comment, the layout. */
function editOnce(text: string, pick: (below: number) => number): string {
  const lines = text.split("\n");
  const statements = lines.flatMap((line, at) => (/^ +[^#\s}]/.test(line) && !/[{}]/.test(line) ? [at] : []));
  const at = statements[pick(statements.length)]!;
  switch (pick(8)) {
    case 0:
    case 1: {
      const figures = lines.flatMap((line, k) => (statements.includes(k) && /(?<= )\d+(?= )/.test(line) ? [k] : []));
      const line = figures[pick(figures.length)] ?? at;
      lines[line] = lines[line]!.replace(/(?<= )\d+(?= )/, String(1 + pick(900)));
      break;
    }
    case 2:
      lines.splice(at, 1);
      break;
    case 3:
      lines.splice(at, 0, `    # note ${pick(100)}`);
      break;
    case 4: {
      const [line] = lines.splice(at, 1);
      lines.splice(statements[pick(statements.length)]! - 1, 0, line!);
      break;
    }
    case 5: {
      const steps = lines.findIndex((line) => /^ +steps \{/.test(line));
      if (steps >= 0) lines.splice(steps + 1 + pick(8), 0, `    note "read ${pick(100)}"`);
      else lines.splice(at, 0, `  note  "read ${pick(100)}"`);
      break;
    }
    case 6:
      lines[at] = `  ${lines[at]!.replace(/ {2,}/g, "   ")}`;
      break;
    default:
      return formatText(text);
  }
  return lines.join("\n");
}

function edits(text: string, pick: (below: number) => number): string {
  let edited = text;
  for (let n = 1 + pick(3); n > 0; n--) edited = editOnce(edited, pick);
  return edited;
}

/** Statements without the number that says where a step stands: a step put in above moves those below. */
function unnumbered(text: string): string[] {
  return meaningKeys(text).map((key) => key.replace(/^(\S+ \S+) \d+ /, "$1 step "));
}

function counts(keys: readonly string[]): Map<string, number> {
  const map = new Map<string, number>();
  for (const key of keys) map.set(key, (map.get(key) ?? 0) + 1);
  return map;
}

/**
 * A source that stands once for a whole block is part of each of its facts, and blocks of one name are numbered: both may differ for
 * facts that nobody touched.
 */
function bare(key: string): string {
  return key.replace(/,?"…source":\{[^}]*\}/, "").replace(/ \(\d+\)"/, '"');
}

/** The text with every conflict settled for one side. */
function settledBy(text: string, side: "ours" | "theirs"): string {
  const conflict = /<{7} ours\n([\s\S]*?)\|{7} base\n[\s\S]*?={7}\n([\s\S]*?)>{7} theirs\n/g;
  return text.replace(conflict, side === "ours" ? "$1" : "$2");
}

test("random three-way merges", { timeout: 900_000 }, () => {
  const rounds = 1_000;
  let clean = 0;
  let conflicting = 0;
  for (let seed = 1; seed <= rounds; seed++) {
    const pick = random(seed * 7919);
    const base = texts[pick(texts.length)]![1];
    const [ours, theirs] = [edits(base, pick), edits(base, pick)];
    const merged = mergeTexts(base, ours, theirs);
    if (isNotMergeable(merged)) continue;
    const [b, o, t, m] = [base, ours, theirs, merged.text].map((text) => counts(unnumbered(text))) as [
      Map<string, number>,
      Map<string, number>,
      Map<string, number>,
      Map<string, number>,
    ];
    if (merged.conflicts.length > 0) {
      conflicting++;
      // Whatever both could mean stands between the markers.
      for (const { ours: own, theirs: other } of merged.conflicts) {
        for (const line of `${own}\n${other}`.split("\n")) expect(merged.text).toContain(line);
      }
      // Whoever then takes one side in every conflict has all that this side changed, and nothing changed that neither did.
      for (const [side, mine, other] of [
        ["ours", ours, theirs],
        ["theirs", theirs, ours],
      ] as const) {
        const [was, own, its, is] = [base, mine, other, settledBy(merged.text, side)].map((text) =>
          counts(unnumbered(text).map(bare)),
        ) as [Map<string, number>, Map<string, number>, Map<string, number>, Map<string, number>];
        for (const key of new Set([...was.keys(), ...own.keys(), ...is.keys()])) {
          if ((its.get(key) ?? 0) !== (was.get(key) ?? 0)) continue;
          const [found, wanted] = [is.get(key) ?? 0, own.get(key) ?? 0];
          // A nameless block that no longer matches its former self stands as a new one beside the conflict: more, never fewer.
          const isKept = key.includes('["stable') ? found >= Math.min(wanted, was.get(key) ?? 0) : found === wanted;
          expect(isKept, `seed ${seed}, ${side} taken: ${wanted} → ${found}: ${key}`).toBe(true);
        }
      }
      continue;
    }
    clean++;
    for (const key of new Set([...b.keys(), ...o.keys(), ...t.keys(), ...m.keys()])) {
      const n = (side: Map<string, number>) => side.get(key) ?? 0;
      const [was, mine, yours, is] = [n(b), n(o), n(t), n(m)];
      // What one side changed alone is what comes out; what both changed alike comes out so.
      const wanted = mine === was ? yours : yours === was ? mine : undefined;
      const told = `seed ${seed}: ${key}: ${was}, ${mine}, ${yours} → ${is}`;
      if (wanted !== undefined) expect(is, told).toBe(wanted);
      else expect(is >= Math.min(mine, yours) && is <= Math.max(mine, yours, mine + yours - was), told).toBe(true);
    }
    for (const comment of new Set(
      [...ours.matchAll(/# note \d+/g), ...theirs.matchAll(/# note \d+/g)].map((c) => c[0]),
    )) {
      expect(merged.text, `seed ${seed}`).toContain(comment);
    }
  }
  expect(clean).toBeGreaterThan(rounds / 3);
  expect(conflicting).toBeGreaterThan(rounds / 50);
});

test("random edits of a declaration that the other side renamed", { timeout: 300_000 }, () => {
  const rounds = 200;
  let clean = 0;
  for (let seed = 1; seed <= rounds; seed++) {
    const pick = random(seed * 104_729);
    const base = texts[pick(texts.length)]![1];
    const heads = [...base.matchAll(/^(drug|stock|recipe|fluid|reference) (\S+) \{/gm)];
    const head = heads[pick(heads.length)];
    if (!head) continue;
    const renamed = (text: string) => text.replace(head[0], `${head[1]} ${head[2]}-anew {`);
    const theirs = edits(base, pick);
    const sides = pick(2) === 0 ? ([renamed(base), theirs] as const) : ([theirs, renamed(base)] as const);
    const merged = mergeTexts(base, ...sides);
    if (isNotMergeable(merged)) continue;
    expect(merged.conflicts, `seed ${seed}`).toEqual([]);
    expect(meaningKeys(merged.text), `seed ${seed}`).toEqual(meaningKeys(renamed(theirs)));
    clean++;
  }
  expect(clean).toBeGreaterThan(rounds / 2);
});

describe("by hand", () => {
  const drug = (rows: string) => `drug test-drug {\n  name  "test"\n${rows}}\n`;

  test("two rows added to one list both stand, in their places", () => {
    const base = drug("  compatible  water\n  light  not-sensitive\n");
    const merged = mergeTexts(
      base,
      drug("  compatible  water\n  compatible  saline\n  light  not-sensitive\n"),
      drug("  compatible  water\n  compatible  glucose\n  light  not-sensitive\n"),
    );
    expect(merged).toEqual({
      text: drug("  compatible  water\n  compatible  saline\n  compatible  glucose\n  light  not-sensitive\n"),
      conflicts: [],
    });
  });

  test("a fact taken out here and changed there is a conflict", () => {
    const merged = mergeTexts(drug("  density  1 g/mL\n"), drug(""), drug("  density  2 g/mL\n"));
    expect(merged).toMatchObject({ conflicts: [{ base: "density  1 g/mL", ours: "", theirs: "density  2 g/mL" }] });
  });

  test("one fact put in on both sides: with one meaning once, with two a conflict", () => {
    const one = mergeTexts(drug(""), drug("  density  1 g/mL\n"), drug("  density  1,000 mg/mL # theirs\n"));
    expect(one).toEqual({ text: drug("  # theirs\n  density  1 g/mL\n"), conflicts: [] });
    const two = mergeTexts(drug(""), drug("  density  1 g/mL\n"), drug("  density  2 g/mL\n"));
    expect(two).toMatchObject({ conflicts: [{ ours: "density  1 g/mL", theirs: "density  2 g/mL" }] });
  });

  test("other line ends or a mark of byte order on one side leave the other side's change", () => {
    const [base, theirs] = [drug("  density  1 g/mL\n"), drug("  density  2 g/mL\n")];
    const windows = (text: string) => text.replaceAll("\n", "\r\n");
    expect(mergeTexts(base, windows(base), theirs)).toEqual({ text: windows(theirs), conflicts: [] });
    // Where only the other side changed anything, its text is taken as it is.
    expect(mergeTexts(base, base, windows(theirs))).toEqual({ text: windows(theirs), conflicts: [] });
    expect(mergeTexts(base, `\ufeff${base}`, theirs)).toEqual({ text: `\ufeff${theirs}`, conflicts: [] });
  });

  test("comments of both sides on one line both stay", () => {
    const line = "  density  1 g/mL";
    const merged = mergeTexts(drug(`${line}\n`), drug(`${line}  # ours\n`), drug(`${line}  # theirs\n`));
    expect(merged).toEqual({ text: drug(`  # theirs\n${line}  # ours\n`), conflicts: [] });
  });

  test("whole declarations put in, taken out and changed", () => {
    const [a, b, c] = ["a", "b", "c"].map((n) => `drug ${n} {\n  name  "${n}"\n}\n`) as [string, string, string];
    expect(mergeTexts(`${a}\n${b}`, `${a}`, `${a}\n${b}\n${c}`)).toMatchObject({ text: `${a}\n${c}`, conflicts: [] });
  });

  const named = (name: string, density: string) => `drug ${name} {\n  name     "test"\n  density  ${density}\n}\n`;

  test("renamed here and changed there is both; renamed and changed here is a conflict", () => {
    const base = named("a", "1 g/mL");
    const both = { text: named("b", "2 g/mL"), conflicts: [] };
    expect(mergeTexts(base, named("b", "1 g/mL"), named("a", "2 g/mL"))).toEqual(both);
    expect(mergeTexts(base, named("a", "2 g/mL"), named("b", "1 g/mL"))).toEqual(both);
    expect(mergeTexts(base, named("b", "3 g/mL"), named("a", "2 g/mL"))).toMatchObject({ conflicts: [{ ours: "" }] });
    expect(mergeTexts(base, named("b", "1 g/mL"), named("b", "1,000 mg/mL"))).toMatchObject({ conflicts: [] });
  });

  test("given two names, one here and one there, it is a conflict and never two declarations", () => {
    const sides = [named("b", "1 g/mL"), named("c", "1 g/mL")] as const;
    const merged = mergeTexts(named("a", "1 g/mL"), ...sides);
    expect(merged).toMatchObject({
      conflicts: [
        { where: "drug a", base: named("a", "1 g/mL").trim(), ours: sides[0].trim(), theirs: sides[1].trim() },
      ],
    });
    if (isNotMergeable(merged)) throw new Error(merged.reason);
    expect(settledBy(merged.text, "ours")).toBe(sides[0]);
    expect(settledBy(merged.text, "theirs")).toBe(sides[1]);
  });

  test("so it is where one side changed it as well, and where the other took it out", () => {
    const long = (name: string, density: string) =>
      `drug ${name} {\n  name        "test"\n  density     ${density}\n  light       not-sensitive\n  high-alert  no\n  hazard      not-hazardous\n}\n`;
    const base = long("a", "1 g/mL");
    const two = mergeTexts(base, long("b", "2 g/mL"), long("c", "1 g/mL"));
    expect(two).toMatchObject({
      conflicts: [{ ours: long("b", "2 g/mL").trim(), theirs: long("c", "1 g/mL").trim() }],
    });
    const other = long("z", "9 g/mL").replace('"test"', '"other"').replace("not-hazardous", "hazardous");
    const gone = mergeTexts(base + other, long("b", "1 g/mL") + other, other);
    expect(gone).toMatchObject({ conflicts: [{ ours: long("b", "1 g/mL").trim(), theirs: "" }] });
    expect(mergeTexts(base + other, other, other + long("n", "7 g/mL"))).toMatchObject({ conflicts: [{ ours: "" }] });
    expect(mergeTexts(base + other, other, other)).toMatchObject({ conflicts: [] });
  });

  test("a name that the other side gave to something else is not taken from it", () => {
    const base = named("a", "1 g/mL");
    const merged = mergeTexts(base, named("b", "1 g/mL"), `${named("a", "2 g/mL")}${named("b", "9 g/mL")}`);
    if (isNotMergeable(merged)) throw new Error(merged.reason);
    expect(merged.conflicts.length).toBeGreaterThan(0);
  });

  test("two declarations that say the same are not taken for each other", () => {
    const base = named("a", "1 g/mL") + named("b", "1 g/mL");
    const merged = mergeTexts(base, named("c", "1 g/mL"), named("a", "2 g/mL") + named("b", "1 g/mL"));
    expect(merged).toMatchObject({ conflicts: [{ ours: "", theirs: named("a", "2 g/mL").trim() }] });
  });

  test("a text that cannot be read as recipes is not merged here, and says why", () => {
    expect(mergeTexts(drug(""), "drug x {\n", drug("  density  1 g/mL\n"))).toMatchObject({
      reason: expect.stringMatching(/own side cannot be read/),
    });
  });

  test("half of a moved step never stands outside the conflict that holds its other half", () => {
    const recipe = (...steps: string[]) => `recipe r {\n  steps {\n${steps.map((s) => `    ${s}\n`).join("")}  }\n}\n`;
    const [check, disinfect, mix, seal] = [
      "check by pharmacist",
      "disinfect bag",
      "mix bag by inverting",
      "seal bag",
    ] as const;
    // Ours mixes earlier; theirs takes out the check before it. Whoever settles it for theirs must still find one mixing.
    const merged = mergeTexts(
      recipe(check, disinfect, mix, seal),
      recipe(check, mix, disinfect, seal),
      recipe(disinfect, mix, seal),
    );
    if (isNotMergeable(merged)) throw new Error(merged.reason);
    expect(merged.conflicts).toHaveLength(1);
    expect(meaningKeys(settledBy(merged.text, "theirs"))).toEqual(meaningKeys(recipe(disinfect, mix, seal)));
  });

  test("steps put in at two places both stand; at one place they are a conflict", () => {
    const recipe = (...steps: string[]) => `recipe r {\n  steps {\n${steps.map((s) => `    ${s}\n`).join("")}  }\n}\n`;
    const [x, y, z] = ["seal bag", "label bag", "inspect bag"] as const;
    expect(mergeTexts(recipe(x, y), recipe(z, x, y), recipe(x, y, 'note "a"'))).toMatchObject({
      text: recipe(z, x, y, 'note "a"'),
      conflicts: [],
    });
    // The same step put in by both at two places: meant once or twice, nobody can tell.
    expect(mergeTexts(recipe(x, y), recipe(z, x, y), recipe(x, y, z))).toMatchObject({
      conflicts: [{ where: "recipe r, steps" }],
    });
    expect(mergeTexts(recipe(x, y), recipe(x, z, y), recipe(x, 'note "a"', y))).toMatchObject({
      conflicts: [{ where: "recipe r, steps" }],
    });
  });
});
