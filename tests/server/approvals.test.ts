/** Approvals in the editor: after each of these what is shown equals a fresh check, what git remembers of the approved meaning included. */
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { FileChangeType, type WorkspaceDiagnosticReport } from "vscode-languageserver-protocol";
import { engine } from "../../client/cli/engine.ts";
import { run } from "../../client/cli/program.ts";
import { nodeHost } from "../../server/node-host.ts";
import type { Preview } from "../../shared/preview.ts";
import { type Editor, type EditorOptions, editor, fullAbilities, uriOf } from "./client.ts";
import { freshCheck, lineOf, shownNow, sorted } from "./fresh.ts";

const asOf = "2026-11-25";
const recipe = "recipes/magnesium-4g.misce";
const record = "recipes/magnesium-4g.approvals.json";
let folder: string;
let e: Editor;
let version = 1;
const unsaved = new Map<string, string>();

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-approved-")));
  const part = (from: string) => !/recipes\/./.test(from) || /magnesium-/.test(from);
  cpSync("samples/library", folder, { recursive: true, filter: part });
  unsaved.clear();
});

afterEach(async () => {
  await e.quit();
  rmSync(folder, { recursive: true, force: true });
});

async function start(more: Partial<EditorOptions> = {}, options: object = {}): Promise<void> {
  e = await editor({ folders: [folder], options: { asOf, ...options }, ...more });
  await settled();
}

async function settled(): Promise<void> {
  for (let round = 0; round < 4; round++) {
    await e.ask("workspace/symbol", { query: "no such name" });
    await e.serving!.publisher.settled();
  }
}

const path = (file: string) => join(folder, file);
const text = (file: string) => unsaved.get(path(file)) ?? readFileSync(path(file), "utf8");

function git(...words: string[]): void {
  const who = [
    "-c",
    "user.name=Approver",
    "-c",
    "user.email=approver@kestrel-quay.example",
    "-c",
    "commit.gpgsign=false",
  ];
  execFileSync("git", [...who, ...words], { cwd: folder, stdio: "ignore" });
}

function commit(): void {
  git("init", "-q");
  git("add", "-A");
  git("commit", "-q", "-m", "as it stands");
}

async function approve(role = "pharmacist"): Promise<void> {
  const said: string[] = [];
  const outlet = { write: (text: string) => void said.push(text), isTerminal: false, columns: undefined };
  const status = await run(["approve", "magnesium-4g", "--role", role, "--as-of", asOf], engine, {
    cwd: folder,
    env: {},
    stdout: outlet,
    stderr: outlet,
    readStdin: () => Buffer.alloc(0),
    now: () => new Date(2026, 10, 25, 12),
  });
  expect(status, said.join("")).toBe(0);
}

function askFor(...roles: string[]): void {
  const asked = roles.map((role) => `  approvals       ${role}\n`).join("");
  writeFileSync(path("site.misce"), text("site.misce").replace("  note ", `${asked}  note `));
}

async function open(file: string): Promise<void> {
  const now = text(file);
  unsaved.set(path(file), now);
  await e.open(path(file), now);
}

async function type(file: string, now: string): Promise<void> {
  unsaved.set(path(file), now);
  await e.change(path(file), ++version, now);
}

async function tellDisk(...changes: [file: string, type: FileChangeType][]): Promise<void> {
  await e.tell("workspace/didChangeWatchedFiles", {
    changes: changes.map(([file, type]) => ({ uri: uriOf(path(file)), type })),
  });
}

/** @returns names of the findings about approvals */
async function equalsFresh(): Promise<string[]> {
  await settled();
  const fresh = await freshCheck(folder, asOf, unsaved);
  expect(sorted(shownNow(e))).toEqual(sorted(fresh));
  return [...fresh.values()].flat().flatMap((line) => /approval-\w[\w-]*/.exec(line) ?? []);
}

const shownFor = (file: string) => e.shown.get(uriOf(path(file)))?.diagnostics ?? [];
const slower = (before: string) => before.replace("infuse-over     4 h", "infuse-over     5 h");

test("a recipe changed after its approval is told of, and undone is no longer", async () => {
  await approve();
  await start();
  expect(await equalsFresh()).toEqual([]);
  await open(recipe);
  const before = text(recipe);
  await type(recipe, slower(before));
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  // Lines above it move the place with the recipe, whether what is shown was worked out anew or not.
  await type(recipe, `# one line more\n${slower(before)}`);
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  await type(recipe, `# layout alone leaves an approval standing\n${before}`);
  expect(await equalsFresh()).toEqual([]);
});

test("what changed since is told fact by fact from the history, in the recipe and in what it rests on", async () => {
  commit();
  await approve();
  commit();
  await start();
  await open(recipe);
  await type(recipe, slower(text(recipe)));
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  expect(shownFor(recipe)[0]!.message).toContain("order: infuse-over 4 h → infuse-over 5 h");
  const drug = "drugs/magnesium-sulfate.misce";
  await open(drug);
  const before = text(drug);
  await type(drug, before.replace(/high-alert +yes/, "high-alert no"));
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  expect(
    shownFor(recipe)
      .map((d) => d.message)
      .join(),
  ).toContain("high-alert yes → high-alert no");
  // The recipe is right again, and still rests on another drug.
  await type(recipe, readFileSync(path(recipe), "utf8"));
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  await type(drug, before);
  expect(await equalsFresh()).toEqual([]);
});

test("a commit that brings the approved meaning into the history makes the words exact", async () => {
  commit();
  // Approved before it is committed: HEAD does not have this meaning yet.
  writeFileSync(path(recipe), slower(text(recipe)));
  await approve();
  const approved = text(recipe);
  writeFileSync(path(recipe), approved.replace("infuse-over     5 h", "infuse-over     6 h"));
  await start();
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  expect(shownFor(recipe)[0]!.message).toContain("recipe magnesium-4g says something else");
  writeFileSync(path(recipe), approved);
  commit();
  writeFileSync(path(recipe), approved.replace("infuse-over     5 h", "infuse-over     6 h"));
  await tellDisk([recipe, FileChangeType.Changed]);
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  expect(shownFor(recipe)[0]!.message).toContain("infuse-over 5 h → infuse-over 6 h");
});

test("a record written, spoilt, deleted and put back", async () => {
  askFor("pharmacist");
  await start();
  expect(await equalsFresh()).toContain("approval-missing");
  const missing = (await equalsFresh()).length;
  await approve();
  await tellDisk([record, FileChangeType.Created]);
  expect(await equalsFresh()).toHaveLength(missing - 1);
  const good = readFileSync(path(record));
  for (const spoilt of ["<<<<<<< ours", '{"schema":"misce-approvals/9"}', Buffer.from([0xff, 0xfe, 0x7b, 0])]) {
    writeFileSync(path(record), spoilt);
    await tellDisk([record, FileChangeType.Changed]);
    expect(await equalsFresh()).toContain("approval-not-readable");
  }
  rmSync(path(record));
  mkdirSync(path(record));
  await tellDisk([record, FileChangeType.Created]);
  expect(await equalsFresh()).toContain("approval-not-readable");
  rmSync(path(record), { recursive: true });
  await tellDisk([record, FileChangeType.Deleted]);
  expect(await equalsFresh()).toHaveLength(missing);
  writeFileSync(path(record), good);
  await tellDisk([record, FileChangeType.Created]);
  expect(await equalsFresh()).toHaveLength(missing - 1);
});

test("the site asks for another role, for none, and turns the finding into an error", async () => {
  await approve();
  await start();
  await open("site.misce");
  const before = text("site.misce");
  const asking = (lines: string) => before.replace("  note ", `${lines}  note `);
  await type("site.misce", asking("  approvals       aseptic-lead\n"));
  expect(await equalsFresh()).toContain("approval-missing");
  const level = '  severity        approval-missing error\n    because "house rule"\n';
  await type("site.misce", asking(`  approvals       aseptic-lead\n${level}`));
  expect(await equalsFresh()).toContain("approval-missing");
  expect(shownFor(recipe).find((d) => d.code === "approval-missing")!.severity).toBe(1);
  // Written in the line of the brace it is read all the same, and asked for.
  await type("site.misce", before.replace(/^site \{\n/m, "site { approvals aseptic-lead\n"));
  expect(await equalsFresh()).toContain("approval-missing");
  await type("site.misce", before);
  expect(await equalsFresh()).toEqual([]);
});

test("files renamed, deleted and moved away from their record; two recipes of one name", async () => {
  await approve();
  writeFileSync(path(recipe), slower(text(recipe)));
  await start();
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  renameSync(path(recipe), path("recipes/other.misce"));
  await tellDisk([recipe, FileChangeType.Deleted], ["recipes/other.misce", FileChangeType.Created]);
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  mkdirSync(path("elsewhere"));
  renameSync(path("recipes/other.misce"), path("elsewhere/other.misce"));
  await tellDisk(["recipes/other.misce", FileChangeType.Deleted], ["elsewhere/other.misce", FileChangeType.Created]);
  expect(await equalsFresh()).toEqual([]);
  renameSync(path(record), path("elsewhere/magnesium-4g.approvals.json"));
  await tellDisk([record, FileChangeType.Deleted], ["elsewhere/magnesium-4g.approvals.json", FileChangeType.Created]);
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  cpSync(path("elsewhere/other.misce"), path("twice.misce"));
  await tellDisk(["twice.misce", FileChangeType.Created]);
  expect(await equalsFresh()).toEqual([]);
  rmSync(path("twice.misce"));
  await tellDisk(["twice.misce", FileChangeType.Deleted]);
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  rmSync(path("site.misce"));
  await tellDisk(["site.misce", FileChangeType.Deleted]);
  expect(await equalsFresh()).toEqual(["approval-stale"]);
});

test("closing without saving takes the finding back", async () => {
  await approve();
  await start();
  await open(recipe);
  await type(recipe, slower(text(recipe)));
  expect(await equalsFresh()).toEqual(["approval-stale"]);
  unsaved.delete(path(recipe));
  await e.tell("textDocument/didClose", { textDocument: { uri: uriOf(path(recipe)) } });
  expect(await equalsFresh()).toEqual([]);
});

test("an editor that watches no files sees a new record", async () => {
  askFor("pharmacist");
  await start({ abilities: { textDocument: { publishDiagnostics: {} } } });
  expect(shownFor(recipe).map((d) => d.code)).toContain("approval-missing");
  const next = e.next(path(recipe));
  await approve();
  expect((await next).map((d) => d.code)).not.toContain("approval-missing");
  await equalsFresh();
}, 60_000);

test("an editor that asks is answered with approvals, at once after an edit", async () => {
  commit();
  await approve();
  commit();
  await start({ abilities: { ...fullAbilities, textDocument: { diagnostic: {} } } });
  await open(recipe);
  await type(recipe, slower(text(recipe)));
  const { items } = await e.ask<WorkspaceDiagnosticReport>("workspace/diagnostic", { previousResultIds: [] });
  const asked = items.flatMap((i) => {
    const lines = i.kind === "full" ? i.items.map(lineOf).sort() : [];
    return lines.length > 0 ? [[i.uri, lines] as [string, string[]]] : [];
  });
  expect(asked.flat(2).join()).toContain("infuse-over 4 h → infuse-over 5 h");
  expect(sorted(new Map(asked))).toEqual(sorted(await freshCheck(folder, asOf, unsaved)));
});

test("the preview counts what stands about approvals, and so does the line above the recipe", async () => {
  askFor("pharmacist");
  await start();
  await open(recipe);
  await settled();
  const shown = await e.ask<Preview>("misce/preview", {
    uri: uriOf(path(recipe)),
    position: { line: 3, character: 0 },
  });
  expect(shown.counts.warning).toBe(1);
  expect(JSON.stringify(shown.sections)).toContain("No approval by pharmacist is on record");
  const lenses = await e.ask("textDocument/codeLens", { textDocument: { uri: uriOf(path(recipe)) } });
  expect(JSON.stringify(lenses)).toContain("1 warning");
});

test.each([
  ["a host without version control", { host: { ...nodeHost, history: undefined } }, {}, "not at hand in a browser"],
  ["a folder that is not trusted", {}, { history: false }, "only in a folder that you trust"],
])("%s: names what changed, and says why no more is told", async (_, more, options, why) => {
  commit();
  await approve();
  commit();
  writeFileSync(path(recipe), slower(text(recipe)));
  await start(more as Partial<EditorOptions>, options);
  const [first] = shownFor(recipe);
  expect(first).toMatchObject({ code: "approval-stale" });
  expect(first!.message).toContain("recipe magnesium-4g says something else");
  expect(first!.message).toContain(why);
});
