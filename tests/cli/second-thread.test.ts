/** Two threads give the report that one gives; a thread that fails costs time and nothing else. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { generate } from "../bench/generate.ts";

const folder = mkdtempSync(join(tmpdir(), "misce-threads-"));
const program = join(folder, "misce.cjs");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** More than are worth a second thread. */
const library = generate({ seed: 11, recipes: 340, faulty: 0.2 });

beforeAll(async () => {
  const script = new URL("../../client/cli/build.mjs", import.meta.url).href;
  await ((await import(script)) as { bundle(outfile: string): Promise<void> }).bundle(program);
  for (const [file, text] of library.files) {
    mkdirSync(dirname(join(folder, "library", file)), { recursive: true });
    writeFileSync(join(folder, "library", file), text);
    mkdirSync(dirname(join(folder, "stricter", file)), { recursive: true });
    writeFileSync(join(folder, "stricter", file), text.replace(/(?<=\n *tolerance +dose) 5 %/, " 3 %"));
  }
});

const check = ["check", "--no-cache", "--as-of", "2026-11-25", "--format", "json", "library"];
const compare = ["compare", "--as-of", "2026-11-25", "--format", "json", "library", "stricter"];

function report(file: string, words = check): { out: string; err: string } {
  const run = spawnSync(process.execPath, [file, ...words], { cwd: folder, encoding: "utf8", maxBuffer: 2 ** 28 });
  return { out: run.stdout, err: run.stderr };
}

/** The program with a second thread that dies at once: all is left to the first. */
function aloneProgram(): string {
  const alone = join(folder, "alone.cjs");
  const text = readFileSync(program, "utf8");
  writeFileSync(alone, text.replace("\n", "\nif (!require('node:worker_threads').isMainThread) process.exit(1);\n"));
  return alone;
}

describe("two threads", () => {
  it("give the report of one, and of one that does the work of a failed one", () => {
    const alone = aloneProgram();
    const two = report(program);
    const one = report(alone);
    expect(two.out).toBe(one.out);
    expect(two.err).toBe("");
    const found = JSON.parse(two.out) as { findings: { place: { file: string } }[] };
    const withFindings = new Set(found.findings.map((f) => f.place.file.replace("library/", "")));
    expect([...library.faulty].filter((file) => !withFindings.has(file))).toEqual([]);
  });

  it("compare as one does, where every recipe is reached", { timeout: 600_000 }, () => {
    const two = report(program, compare);
    expect(two).toEqual(report(aloneProgram(), compare));
    expect(two.err).toBe("");
    const { declarations } = JSON.parse(two.out) as { declarations: { kind: string }[] };
    expect(declarations.filter(({ kind }) => kind === "recipe")).toHaveLength(340);
  });
});
