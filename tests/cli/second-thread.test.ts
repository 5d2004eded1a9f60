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
  }
});

function report(file: string): { out: string; err: string } {
  const words = ["check", "--no-cache", "--as-of", "2026-11-25", "--format", "json", "library"];
  const run = spawnSync(process.execPath, [file, ...words], { cwd: folder, encoding: "utf8", maxBuffer: 2 ** 28 });
  return { out: run.stdout, err: run.stderr };
}

describe("two threads", () => {
  it("give the report of one, and of one that does the work of a failed one", () => {
    const text = readFileSync(program, "utf8");
    const alone = join(folder, "alone.cjs");
    // The second thread dies at once: all is left to the first.
    writeFileSync(alone, text.replace("\n", "\nif (!require('node:worker_threads').isMainThread) process.exit(1);\n"));
    const two = report(program);
    const one = report(alone);
    expect(two.out).toBe(one.out);
    expect(two.err).toBe("");
    const found = JSON.parse(two.out) as { findings: { place: { file: string } }[] };
    const withFindings = new Set(found.findings.map((f) => f.place.file.replace("library/", "")));
    expect([...library.faulty].filter((file) => !withFindings.has(file))).toEqual([]);
  });
});
