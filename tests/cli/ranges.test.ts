/** How far a ranged order was decided, in every form of the report; and its own exit status where only that is open. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import formats from "ajv-formats";
import { describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { rangeNotDecided } from "../../language/checks/structure/range-not-decided.ts";
import type { Report } from "../../shared/report.ts";
import { asOf, folderWith, runIn } from "./run-here.ts";

const samples = join(import.meta.dirname, "../../samples/library");
const schema = JSON.parse(readFileSync(join(import.meta.dirname, "../../shared/report.schema.json"), "utf8"));

function isValid(report: unknown): boolean {
  const ajv = new Ajv({ allErrors: true });
  (formats as unknown as (a: Ajv) => void)(ajv);
  return ajv.compile(schema)(report) as boolean;
}

async function check(folder: string, words: string[] = []) {
  return runIn(folder, ["check", ...asOf, "--no-cache", ...words], { engine });
}

async function reportOf(folder: string, words: string[] = []): Promise<Report> {
  return JSON.parse((await check(folder, ["--format", "json", ...words])).out) as Report;
}

/** The check's own example: some weights of it cannot be decided. */
const undecided = () => folderWith({ "a.misce": rangeNotDecided.bad });
const decided = () => folderWith({ "a.misce": rangeNotDecided.good });

describe("a ranged recipe", () => {
  test("of the samples is told in the summary with its pieces", async () => {
    const { out } = await check(samples, ["recipes/vancomycin-loading.misce"]);
    expect(out).toMatch(/vancomycin-loading: range of weight 40 kg to 120 kg judged in \d+ pieces\.\n/);
  });

  test("and in JSON as data, valid by the published schema", async () => {
    const report = await reportOf(samples, ["recipes/vancomycin-loading.misce"]);
    expect(report.ranges).toEqual([
      {
        file: "recipes/vancomycin-loading.misce",
        recipe: "vancomycin-loading",
        range: "weight 40 kg to 120 kg",
        pieces: expect.any(Number),
        undecided: [],
      },
    ]);
    expect(report.ranges![0]!.pieces).toBeGreaterThan(1);
    expect(isValid(report)).toBe(true);
  });

  test("a recipe without a range is not among them", async () => {
    expect((await reportOf(samples, ["recipes/magnesium-4g.misce"])).ranges).toEqual([]);
  });

  test("says the same from the cache as afresh", async () => {
    const cache = folderWith({});
    const words = ["check", ...asOf, "recipes/vancomycin-loading.misce", "--format", "json", "--cache-folder", cache];
    const program = join(import.meta.dirname, "ranges.test.ts"); // stands for the program's own file
    const run = async () => {
      let out = "";
      const { run: go } = await import("../../client/cli/program.ts");
      await go(words, engine, {
        cwd: samples,
        env: {},
        stdout: { write: (t) => (out += t), isTerminal: false, columns: undefined },
        stderr: { write: () => {}, isTerminal: false, columns: undefined },
        readStdin: () => Buffer.alloc(0),
        now: () => new Date(2026, 10, 25, 12),
        program,
      });
      return out;
    };
    const [first, second] = [await run(), await run()];
    expect(second).toBe(first);
    expect((JSON.parse(first) as Report).ranges).toHaveLength(1);
  });
});

describe("exit status", () => {
  const others = /range-not-decided/;

  test("3 where the only trouble is that a part of a range is not decided", async () => {
    const folder = undecided();
    const report = await reportOf(folder);
    expect(report.findings.filter((f) => f.severity !== "note").map((f) => f.name)).toEqual(["range-not-decided"]);
    expect(report.exitStatus).toBe(3);
    expect(report.ranges![0]!.undecided.length).toBeGreaterThan(0);
    expect(isValid(report)).toBe(true);
    const { status, out } = await check(folder);
    expect(status).toBe(3);
    expect(out).toMatch(/not decided\.\n/);
    expect(out).toMatch(others);
  });

  test("1 where something else is found too", async () => {
    const folder = folderWith({ "a.misce": `${rangeNotDecided.bad}\ndrug odd {\n  nonsense 3\n}\n` });
    expect((await check(folder)).status).toBe(1);
  });

  test("0 where all is decided, and with --report-only", async () => {
    expect((await check(decided())).status).toBe(0);
    expect((await check(undecided(), ["--report-only"])).status).toBe(0);
  });
});

describe("a finding over a range", () => {
  const faulty = () => {
    const file = readFileSync(join(samples, "recipes/vancomycin-loading.misce"), "utf8");
    return file.replace("maximum         dose 2 g", "maximum         dose 5 g");
  };

  /** The sample library with one recipe changed, on standard input. */
  async function changed(form: string) {
    const words = ["check", ...asOf, "--no-cache", "-", "--stdin-name", "recipes/vancomycin-loading.misce"];
    return runIn(samples, [...words, "--format", form], { engine, stdin: faulty() });
  }

  test("says as data where it is shown, where it is so and where not", async () => {
    const report = JSON.parse((await changed("json")).out) as Report;
    const over = report.findings.filter((f) => f.overRange);
    expect(over.length).toBeGreaterThan(0);
    for (const { overRange, message } of over) expect(message).toContain(overRange!.shownAt);
    expect(over.some((f) => /kg/.test(f.overRange!.fails) && /kg/.test(f.overRange!.holds))).toBe(true);
    expect(isValid(report)).toBe(true);
  });

  test("and in SARIF among its properties", async () => {
    const log = JSON.parse((await changed("sarif")).out);
    const [run] = log.runs;
    expect(
      run.results.some((r: { properties?: { overRange?: { shownAt: string } } }) => r.properties?.overRange?.shownAt),
    ).toBe(true);
    expect(run.properties.ranges[0]).toMatchObject({ recipe: "vancomycin-loading", range: "weight 40 kg to 120 kg" });
  });
});
