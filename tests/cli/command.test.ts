/** The bundled command as a process: exit status, streams and pipes are the operating system's, not ours. */
import { type SpawnSyncReturns, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { folderWith } from "./run-here.ts";

const place = mkdtempSync(join(tmpdir(), "misce-bundle-"));
const command = join(place, "misce.js");
const caution = "supports and does not replace the pharmacist's check";

beforeAll(async () => {
  const script = new URL("../../client/cli/build.mjs", import.meta.url).href;
  const { bundle } = (await import(script)) as { bundle(outfile: string, engine: string): Promise<void> };
  await bundle(command, fileURLToPath(new URL("fake-engine.ts", import.meta.url)));
});
afterAll(() => rmSync(place, { recursive: true, force: true }));

function misce(
  cwd: string,
  words: string[],
  input: string | Buffer = "",
  env: Record<string, string> = {},
): SpawnSyncReturns<string> {
  return spawnSync(process.execPath, [command, ...words], {
    cwd,
    input,
    encoding: "utf8",
    maxBuffer: 100_000_000,
    env: { PATH: process.env.PATH, ...env },
  });
}

test.each<[string, Record<string, string>, string[], number]>([
  ["nothing found", { "a.misce": "recipe a {\n}\n" }, ["check"], 0],
  ["a warning", { "a.misce": "flaw warning x\n" }, ["check"], 1],
  ["a note, below the usual level", { "a.misce": "flaw note x\n" }, ["check"], 0],
  ["a note, asked for", { "a.misce": "flaw note x\n" }, ["check", "--level", "note"], 1],
  ["a warning, errors asked for", { "a.misce": "flaw warning x\n" }, ["check", "--level", "error"], 0],
  ["an error, report only", { "a.misce": "flaw error x\n" }, ["check", "--report-only"], 0],
  ["silenced", { "a.misce": "quiet flaw\n" }, ["check"], 0],
  ["no recipe file", { "a.txt": "" }, ["check"], 2],
  ["a path that is not there", { "a.misce": "" }, ["check", "a.misce", "b.misce"], 2],
  ["the engine breaks off, report only", { "a.misce": "crash\n" }, ["check", "--report-only"], 2],
  ["unknown flag", { "a.misce": "" }, ["check", "--levle", "note"], 2],
  ["unknown level", { "a.misce": "" }, ["check", "--level", "warn"], 2],
  ["no such day", { "a.misce": "" }, ["check", "--as-of", "2026-02-30"], 2],
  ["unknown command", {}, ["chek"], 2],
  ["no command", {}, [], 2],
  ["help", {}, ["help"], 0],
  ["help for a command", {}, ["help", "check"], 0],
  ["version", {}, ["--version"], 0],
])("exit status: %s", (_, files, words, status) => {
  expect(misce(folderWith(files), words).status).toBe(status);
});

test("help says what the tool is not", () => {
  for (const words of [["help"], ["help", "check"], ["format", "--help"]])
    expect(misce(place, words).stdout).toContain(caution);
});

test("unknown words bring a near one", () => {
  expect(misce(place, ["check", "--fromat", "json"]).stderr).toBe(
    "misce: unknown option '--fromat'\n(Did you mean --format?)\nmisce: misce help check lists the options.\n",
  );
  expect(misce(place, ["check", "--format", "jsn"]).stderr).toContain("Did you mean json?");
});

test("standard input stands for the named file in its library", () => {
  const folder = folderWith({
    "site.misce": "site {\n}\n",
    "a.misce": "flaw error on-disk\n",
    "b.misce": "stock b {\n}\n",
  });
  const ran = misce(folder, ["check", "-", "--stdin-name", "a.misce"], "uses b\nflaw error typed\n");
  expect(ran.status).toBe(1);
  expect(ran.stdout).toContain("a.misce:2:1");
  expect(ran.stdout).toContain("flaw error typed");
  expect(ran.stdout).not.toMatch(/on-disk|unknown-name/);
  expect(ran.stdout).toContain("1 file checked");
});

test("a working folder that is gone is told, and is no finding", () => {
  const gone = folderWith({});
  const script = `process.chdir(${JSON.stringify(gone)}); require("node:fs").rmdirSync(${JSON.stringify(gone)}); require(${JSON.stringify(command)})`;
  const ran = spawnSync(process.execPath, ["-e", script, "check"], { encoding: "utf8" });
  expect(ran).toMatchObject({ status: 2, stdout: "" });
  expect(ran.stderr).toContain("misce: The working folder no longer exists.");
});

test("standard input is laid out onto standard output, and nothing else is", () => {
  expect(misce(place, ["format", "-"], "recipe a {\n     tap mag  \n}\n")).toMatchObject({
    status: 0,
    stdout: "recipe a {\n  tap mag\n}\n",
  });
  expect(misce(place, ["format", "-", "--check"], " tap\n")).toMatchObject({ status: 1, stdout: "" });
  expect(misce(place, ["format", "-"], Buffer.from([0xff]))).toMatchObject({ status: 2, stdout: "" });
});

test("a reader that leaves early is no fault", async () => {
  const folder = folderWith({ "a.misce": "flaw error x\n".repeat(20_000) });
  const child = spawn(process.execPath, [command, "check", "a.misce"], {
    cwd: folder,
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  child.stderr.on("data", (text) => {
    said += text;
  });
  child.stdout.once("data", () => child.stdout.destroy());
  const status = await new Promise((resolve) => child.on("close", resolve));
  expect({ said, status }).toEqual({ said: "", status: 1 });
});

test("a report larger than a pipe arrives whole", () => {
  const folder = folderWith({ "a.misce": "flaw error x\n".repeat(3000) });
  const ran = misce(folder, ["check", "--format", "json"]);
  expect(JSON.parse(ran.stdout).findings).toHaveLength(3000);
});

test("no colour through a pipe, colour where asked for, NO_COLOR heeded", () => {
  const folder = folderWith({ "a.misce": "flaw error x\n" });
  expect(misce(folder, ["check"]).stdout).not.toContain("\u001b[");
  expect(misce(folder, ["check", "--color"]).stdout).toContain("\u001b[1;31merror");
  expect(misce(folder, ["check", "--no-color"], "", { NO_COLOR: "1" }).stdout).not.toContain("\u001b[");
});

test("as of today where no day is given, in the machine's own zone", () => {
  const folder = folderWith({ "a.misce": "" });
  // The same moment is another day on the two sides of the date line; one of the two differs from Greenwich's.
  const day = (zone: string) => /as of (\S+):/.exec(misce(folder, ["check"], "", { TZ: zone }).stdout)![1];
  expect(day("Pacific/Kiritimati")).not.toBe(day("Etc/GMT+12"));
});
