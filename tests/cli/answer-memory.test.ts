/** Answers kept between runs equal fresh ones, whatever was edited, and on whatever day. */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { cacheFolder } from "../../client/cli/cache-folder.ts";
import { checkSettings } from "../../client/cli/check-settings.ts";
import { engine } from "../../client/cli/engine.ts";
import type { Engine, OpenLibrary } from "../../client/cli/engine-contract.ts";
import { run } from "../../client/cli/program.ts";
import { seeded } from "../bench/generate.ts";

const samples = join(import.meta.dirname, "../../samples/library");
const recipes = ["magnesium-4g", "digoxin-40mcg", "ceftriaxone-1g", "potassium-magnesium", "oxytocin-40-units"];
const base = mkdtempSync(join(tmpdir(), "misce-memory-"));
afterAll(() => rmSync(base, { recursive: true, force: true }));
let folders = 0;

/** A small library of the samples, in a folder of its own. */
function library(): string {
  const folder = join(base, `library-${++folders}`);
  cpSync(samples, folder, { recursive: true });
  for (const file of readdirSync(join(folder, "recipes"))) {
    if (!recipes.includes(file.replace(".misce", ""))) rmSync(join(folder, "recipes", file));
  }
  return folder;
}

let asked = 0;
/** The real engine, counting how often a library is asked for findings. */
const counting: Engine = {
  ...engine,
  async library(options) {
    const made = await engine.library(options);
    return Object.assign(Object.create(made), {
      findings: (file: string) => {
        asked++;
        return made.findings(file);
      },
    }) as OpenLibrary;
  },
};

const nowhere = {
  cwd: base,
  stdout: { write() {}, isTerminal: false, columns: undefined },
  stderr: { write() {}, isTerminal: false, columns: undefined },
  readStdin: () => Buffer.alloc(0),
  now: () => new Date(2026, 10, 25, 12),
  program: import.meta.filename,
};

async function check(cwd: string, words: readonly string[], program = import.meta.filename): Promise<string> {
  let out = "";
  const write = (text: string) => {
    out += text;
  };
  const outlet = { write, isTerminal: false, columns: undefined };
  const readStdin = () => Buffer.alloc(0);
  const now = () => new Date(2026, 10, 25, 12);
  const all = ["check", "--format", "json", ...words, "."];
  const surroundings = { cwd, env: {}, stdout: outlet, stderr: outlet, readStdin, now, program };
  const status = await run(all, counting, surroundings);
  return `${status}\n${out}`;
}

const remembering = (cwd: string, words: readonly string[], program?: string) =>
  check(cwd, ["--cache-folder", join(base, "cache"), ...words], program);
const fresh = (cwd: string, words: readonly string[]) => check(cwd, ["--no-cache", ...words]);

const today = ["--as-of", "2026-11-25"];

describe("answers kept between runs", () => {
  it("beside errors that a baseline knows stay apart from those without it", async () => {
    const folder = library();
    const file = join(folder, "recipes/magnesium-4g.misce");
    const wrong = readFileSync(file, "utf8").replace("= 8 mL", "= 0.8 mL");
    writeFileSync(file, wrong);
    const baselined = [...today, "--baseline", "known.json"];
    await remembering(folder, [...baselined, "--write-baseline"]);
    const other = wrong.replace(/(concentration +)[\d.]+ mg\/mL/, "$145 mg/mL");
    expect(other).not.toBe(wrong);
    writeFileSync(file, other);
    for (let round = 0; round < 2; round += 1) {
      expect(await remembering(folder, today)).not.toContain("concentration-differs");
      expect(await remembering(folder, baselined)).toContain("concentration-differs");
    }
    asked = 0;
    await remembering(folder, baselined);
    expect(asked).toBe(0);
  });

  it("are given again without asking the library", async () => {
    const folder = library();
    const first = await remembering(folder, today);
    asked = 0;
    expect(await remembering(folder, today)).toBe(first);
    expect(asked).toBe(0);
    expect(await fresh(folder, today)).toBe(first);
    expect(asked).toBeGreaterThan(10);
  });

  it("after an edit of one recipe are asked anew for that one alone", async () => {
    const folder = library();
    await remembering(folder, today);
    const file = join(folder, "recipes/magnesium-4g.misce");
    writeFileSync(file, readFileSync(file, "utf8").replace("= 8 mL", "= 9 mL"));
    asked = 0;
    const after = await remembering(folder, today);
    expect(asked).toBe(1);
    expect(after).toContain("claim-differs");
  });

  it("of another day are not given: a lot that has gone out since is told", async () => {
    const folder = library();
    const before = await remembering(folder, today);
    const later = await remembering(folder, ["--as-of", "2030-01-01"]);
    expect(before).not.toContain("lot-expired");
    expect(later).toContain("lot-expired");
    expect(await remembering(folder, today)).toBe(before);
  });

  it("of another version of the program are not given", async () => {
    const folder = library();
    await remembering(folder, today);
    asked = 0;
    await remembering(folder, today, join(samples, "site.misce"));
    expect(asked).toBeGreaterThan(10);
  });

  it.each([
    ["cut short", (bytes: Buffer) => bytes.subarray(0, bytes.length / 2)],
    ["changed by one character", (bytes: Buffer) => Buffer.from(bytes.toString().replace("misce", "misca"))],
    [
      "with findings taken out",
      (bytes: Buffer) => Buffer.from(bytes.toString().replaceAll(/"findings":\[[^\]]+\]/g, '"findings":[]')),
    ],
    ["something else altogether", () => Buffer.from("\u0000\u0001 no memory\n{")],
    ["empty", () => Buffer.alloc(0)],
  ])("are left aside when the file is %s", async (_, damage) => {
    const folder = library();
    const file = join(folder, "recipes/magnesium-4g.misce");
    writeFileSync(file, readFileSync(file, "utf8").replace("= 8 mL", "= 9 mL"));
    const cache = mkdtempSync(join(base, "cache-"));
    const words = ["--cache-folder", cache, ...today];
    const before = await check(folder, words);
    const [kept] = readdirSync(cache);
    writeFileSync(join(cache, kept!), damage(readFileSync(join(cache, kept!))));
    expect(await check(folder, words)).toBe(before);
    expect(before).toContain("claim-differs");
  });

  it("cost nothing but time where the folder cannot be written", async () => {
    const folder = library();
    const words = ["--cache-folder", join(folder, "site.misce", "no-folder"), ...today];
    expect(await check(folder, words)).toBe(await fresh(folder, today));
  });

  // XDG Base Directory Specification 0.8: "If an implementation encounters a relative path [...] it should [...] ignore it."
  it("never go into the folder that is checked, whatever XDG_CACHE_HOME says", () => {
    const settings = checkSettings(["."], {}, { ...nowhere, env: {} });
    const at = (xdg: string) =>
      cacheFolder(settings, { ...nowhere, env: { XDG_CACHE_HOME: xdg, HOME: "/home/kestrel" } });
    expect(at("/var/cache/kestrel")).toBe(join("/var/cache/kestrel", "misce"));
    for (const relative of ["cache", "./cache", "..", ""]) expect(at(relative)).toBe(at(""));
    expect(at("")).toContain("kestrel");
  });
});

/** One random edit of a library: a figure, a line, a file, a name, an inventory. */
function edit(folder: string, random: () => number): string {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const inRecipes = () => join("recipes", pick(readdirSync(join(folder, "recipes"))));
  const shared = ["lots.misce", "site.misce", "stock/vials.misce", "stock/ampoules.misce", "drugs/digoxin.misce"];
  const file = random() < 0.5 ? inRecipes() : pick(shared);
  const path = join(folder, file);
  const text = readFileSync(path, "utf8");
  const lines = text.split("\n");
  const at = Math.floor(random() * lines.length);
  switch (Math.floor(random() * 6)) {
    case 0:
      writeFileSync(
        path,
        text.replace(/\d+(?= (?:mL|mg|h)\b)/, (n) => String(Number(n) + 1)),
      );
      return `a figure of ${file}`;
    case 1:
      writeFileSync(path, lines.toSpliced(at, 1).join("\n"));
      return `line ${at + 1} taken out of ${file}`;
    case 2:
      writeFileSync(path, lines.toSpliced(at, 0, pick(["# a remark", "nonsense", ...lines])).join("\n"));
      return `a line put into ${file}`;
    case 3: {
      const copy = join("recipes", `copy-${Math.floor(random() * 3)}.misce`);
      const other = readFileSync(join(folder, inRecipes()), "utf8");
      // Sometimes under the same name, so that a name is declared twice; sometimes under that of a stock.
      const name = pick(["magnesium-4g", "magnesium-vial-10", "another"]);
      writeFileSync(join(folder, copy), other.replace(/^recipe \S+/m, `recipe ${name}`));
      return `${copy} with recipe ${name}`;
    }
    case 4: {
      const from = inRecipes();
      const to = join("recipes", `${pick(["a", "m", "z"])}-moved.misce`);
      renameSync(join(folder, from), join(folder, to));
      return `${from} moved to ${to}`;
    }
    default: {
      const day = pick(["2026-11-30", "2027-04", "2029-01-31"]);
      writeFileSync(join(folder, "shelf.csv"), `stock,lot,expires\nmagnesium-vial-10,KQ-9,${day}\n`);
      return `an inventory with ${day}`;
    }
  }
}

describe("random edits", () => {
  it.each([1, 2])("give the same report from memory as anew (seed %i)", { timeout: 600_000 }, async (seed) => {
    const random = seeded(seed);
    const folder = library();
    mkdirSync(join(folder, "recipes"), { recursive: true });
    writeFileSync(join(folder, "shelf.csv"), "stock,lot,expires\n");
    const done: string[] = [];
    let saved = 0;
    for (let i = 0; i < 12; i++) {
      const day = random() < 0.7 ? today : ["--as-of", ["2027-05-02", "2028-12-31"][Math.floor(random() * 2)]!];
      const words = random() < 0.5 ? [...day, "--inventory", "shelf.csv", "--"] : day;
      asked = 0;
      const given = await remembering(folder, words);
      const whenRemembering = asked;
      asked = 0;
      expect(given, done.join("; ")).toBe(await fresh(folder, words));
      saved += asked - whenRemembering;
      done.push(edit(folder, random));
    }
    expect(saved).toBeGreaterThan(0);
  });
});
