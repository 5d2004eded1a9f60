/** A program that starts from compiled code says the same as one that does not, whatever has become of that code. */
import { spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "misce-compiled-"));
const program = join(folder, "misce.js");
const plain = join(folder, "plain.js");
const faulty = join(root, "samples/faulty/dose-not-delivered/library.misce");
const words = ["check", "--as-of", "2026-11-25", "--no-cache", "--report-only", faulty];

function start(file: string, ...given: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [file, ...given], { cwd: root, encoding: "utf8" });
  return { status, stdout, stderr };
}

const beside = (ending: string) => join(folder, readdirSync(folder).find((name) => name.endsWith(ending))!);

beforeAll(async () => {
  const build = (await import(join(root, "client/cli/build.mjs"))) as { bundle(outfile: string): Promise<void> };
  const keep = (await import(join(root, "client/cli/code-cache.mjs"))) as {
    keepCompiledCode(outfile: string, runs: string[][]): void;
  };
  await build.bundle(program);
  copyFileSync(program, plain);
  keep.keepCompiledCode(program, [words]);
});
afterAll(() => rmSync(folder, { recursive: true }));

test("the same report, from compiled code and without", () => {
  const expected = start(plain, ...words);
  expect(expected.stdout).toContain("dose-not-delivered");
  expect(beside(".compiled")).toBeTruthy();
  expect(start(program, ...words)).toEqual(expected);
});

test("a fault in the arguments ends with the same status", () => {
  expect(start(program, "check", "no/such/file.misce")).toEqual(start(plain, "check", "no/such/file.misce"));
});

test("the parts beside it are found, also from the compiled code", () => {
  expect(readdirSync(folder).some((name) => name.endsWith(".compiled"))).toBe(true);
  const sheet = ["sheet", join(root, "samples/library/recipes/magnesium-4g.misce"), "--at", "2026-11-25T09:30"];
  const out = join(folder, "sheet.pdf");
  expect(start(program, ...sheet, "--number", "KQ-1", "--out", out)).toMatchObject({ status: 0 });
  expect(readdirSync(folder)).toContain("sheet.pdf");
});

test("code that is broken or gone is compiled again", () => {
  const expected = start(plain, ...words);
  writeFileSync(beside(".compiled"), "no code at all");
  expect(start(program, ...words)).toEqual(expected);
  rmSync(beside(".compiled"));
  expect(start(program, ...words)).toEqual(expected);
});
