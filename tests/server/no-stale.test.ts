/** After each of these, what the editor shows equals a fresh check of the same texts and day: nothing stale stays. */
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { FileChangeType, type WorkspaceDiagnosticReport } from "vscode-languageserver-protocol";
import { nodeHost } from "../../server/node-host.ts";
import { type Editor, editor, uriOf } from "./client.ts";
import { freshCheck, lineOf, shownNow, sorted } from "./fresh.ts";

const asOf = "2026-11-25";
let folder: string;
let e: Editor;
let version = 1;
/** Findings of the library as it is laid out. */
let usual = 0;
const unsaved = new Map<string, string>();

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "misce-stale-"));
  // A part of the library is enough, and each comparison costs a fresh check of all of it.
  const part = (from: string) => !/recipes\/./.test(from) || /magnesium-|oxytocin-/.test(from);
  cpSync("samples/library", folder, { recursive: true, filter: part });
  unsaved.clear();
  e = await start();
  usual = [...shownNow(e).values()].flat().length;
});

afterEach(async () => {
  await e.quit();
  rmSync(folder, { recursive: true, force: true });
});

async function start(options: Record<string, unknown> = {}): Promise<Editor> {
  const made = await editor({ folders: [folder], options: { asOf, ...options } });
  await settled(made);
  return made;
}

/** Until the server has worked off what it was told and what follows from it. */
async function settled(of: Editor = e): Promise<void> {
  // A request is answered after the notifications before it; files are read in between.
  for (let round = 0; round < 4; round++) {
    await of.ask("workspace/symbol", { query: "no such name" });
    await of.serving!.publisher.settled();
  }
}

const path = (file: string) => join(folder, file);
const text = (file: string) => readFileSync(path(file), "utf8");

async function open(file: string): Promise<void> {
  unsaved.set(path(file), text(file));
  await e.open(path(file), text(file));
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

async function equalsFresh(day = asOf, inventories: string[] = []): Promise<number> {
  await settled();
  const fresh = await freshCheck(folder, day, unsaved, inventories);
  expect(sorted(shownNow(e))).toEqual(sorted(fresh));
  return [...fresh.values()].flat().length;
}

const recipe = "recipes/magnesium-4g.misce";

test("typing a fault and undoing it", async () => {
  await open(recipe);
  const before = text(recipe);
  await type(recipe, before.replace("disinfect bag\n", "\n"));
  expect(await equalsFresh()).not.toBe(usual);
  await type(recipe, before);
  expect(await equalsFresh()).toBe(usual);
});

test("closing without saving goes back to the disk", async () => {
  await open(recipe);
  await type(recipe, text(recipe).replace("4 g from", "40 g from"));
  expect(await equalsFresh()).not.toBe(usual);
  unsaved.delete(path(recipe));
  await e.tell("textDocument/didClose", { textDocument: { uri: uriOf(path(recipe)) } });
  expect(await equalsFresh()).toBe(usual);
});

test("a stock changed in another file reaches the recipes that use it, and back", async () => {
  const stock = "stock/vials.misce";
  await open(recipe);
  await open(stock);
  const before = text(stock);
  await type(stock, before.replace(/strength( +)500 mg\/mL/, "strength$1200 mg/mL"));
  expect(await equalsFresh()).not.toBe(usual);
  await type(
    stock,
    `# a line above moves the places that others point at\n${before.replace(/strength( +)500 mg\/mL/, "strength$1200 mg/mL")}`,
  );
  await equalsFresh();
  await type(stock, before);
  expect(await equalsFresh()).toBe(usual);
});

test("renaming, deleting and creating files", async () => {
  renameSync(path("stock/vials.misce"), path("stock/moved.misce"));
  await tellDisk(["stock/vials.misce", FileChangeType.Deleted], ["stock/moved.misce", FileChangeType.Created]);
  expect(await equalsFresh()).toBe(usual);
  rmSync(path("stock/moved.misce"));
  await tellDisk(["stock/moved.misce", FileChangeType.Deleted]);
  expect(await equalsFresh()).not.toBe(usual);
  writeFileSync(path("twice.misce"), text(recipe));
  await tellDisk(["twice.misce", FileChangeType.Created]);
  await equalsFresh();
});

test("a file deleted and put back, told of in either order", async () => {
  const deleted: [string, FileChangeType] = [recipe, FileChangeType.Deleted];
  const created: [string, FileChangeType] = [recipe, FileChangeType.Created];
  writeFileSync(path(recipe), text(recipe).replace("disinfect bag\n", "\n"));
  await tellDisk(created, deleted);
  expect(await equalsFresh()).not.toBe(usual);
  await tellDisk(deleted);
  expect(await equalsFresh()).not.toBe(usual);
});

test("a folder added to the workspace, and taken out of it", async () => {
  const other = realpathSync(mkdtempSync(join(tmpdir(), "misce-second-")));
  try {
    cpSync("samples/faulty/lot-expired", other, { recursive: true });
    const second = { uri: uriOf(other), name: "second" };
    const change = (event: { added: object[]; removed: object[] }) =>
      e.tell("workspace/didChangeWorkspaceFolders", { event });
    await change({ added: [second], removed: [] });
    await settled();
    expect(sorted(shownNow(e))).toEqual(sorted(await freshCheck(other, asOf)));
    await change({ added: [], removed: [second] });
    expect(await equalsFresh()).toBe(usual);
  } finally {
    rmSync(other, { recursive: true, force: true });
  }
});

test("a folder renamed: no event names its files", async () => {
  renameSync(path("stock"), path("shelf"));
  await e.tell("workspace/didRenameFiles", { files: [{ oldUri: uriOf(path("stock")), newUri: uriOf(path("shelf")) }] });
  expect(await equalsFresh()).toBe(usual);
  rmSync(path("shelf"), { recursive: true });
  await e.tell("workspace/didChangeWatchedFiles", {
    changes: [{ uri: uriOf(path("shelf")), type: FileChangeType.Deleted }],
  });
  expect(await equalsFresh()).not.toBe(usual);
});

test("another branch checked out on the disk under an open text", async () => {
  await open(recipe);
  await type(recipe, text(recipe).replace("label bag\n", "\n"));
  rmSync(path("lots.misce"));
  writeFileSync(path("drugs/oxytocin.misce"), "drug oxytocin {\n}\n");
  writeFileSync(path(recipe), "recipe other {\n}\n");
  await tellDisk(
    ["lots.misce", FileChangeType.Deleted],
    ["drugs/oxytocin.misce", FileChangeType.Changed],
    [recipe, FileChangeType.Changed],
  );
  await equalsFresh();
  unsaved.delete(path(recipe));
  await e.tell("textDocument/didClose", { textDocument: { uri: uriOf(path(recipe)) } });
  await equalsFresh();
});

test("the site gone and come back: files stand alone, then together", async () => {
  const site = text("site.misce");
  rmSync(path("site.misce"));
  await tellDisk(["site.misce", FileChangeType.Deleted]);
  expect(await equalsFresh()).not.toBe(usual);
  writeFileSync(path("site.misce"), site);
  await tellDisk(["site.misce", FileChangeType.Created]);
  expect(await equalsFresh()).toBe(usual);
});

test("a second library inside the first", async () => {
  cpSync("samples/faulty/lot-expired", path("recipes/inner"), { recursive: true });
  await tellDisk(["recipes/inner/library.misce", FileChangeType.Created]);
  expect(await equalsFresh()).not.toBe(usual);
});

test("an inventory export changes what is on the shelf", async () => {
  const csv = path("shelf.csv");
  const rows = (day: string) => `stock,lot,expires\nmagnesium-vial-10,X1,${day}\n`;
  writeFileSync(csv, rows("2027-12-31"));
  await e.quit();
  e = await start({ inventory: ["shelf.csv"] });
  await equalsFresh(asOf, [csv]);
  writeFileSync(csv, rows("2020-01-31"));
  await tellDisk(["shelf.csv", FileChangeType.Changed]);
  await equalsFresh(asOf, [csv]);
});

test("an inventory that lies outside two libraries says of each what it lacks", async () => {
  mkdirSync(path("second"));
  writeFileSync(path("second/library.misce"), 'site {\n  name  "A second site"\n}\nstock other-vial {\n}\n');
  mkdirSync(path("first"));
  const moved = readdirSync(folder).filter((name) => !["first", "second"].includes(name));
  for (const name of moved) renameSync(path(name), path(`first/${name}`));
  const csv = path("shelf.csv");
  writeFileSync(csv, "stock,lot,expires\nother-vial,X1,2027-12-31\nmagnesium-vial-10,X2,2020-01-31\n");
  await e.quit();
  e = await start({ inventory: ["shelf.csv"] });
  // Each library knows another of the two stocks.
  const said = e.shown
    .get(uriOf(csv))!
    .diagnostics.map((d) => d.message)
    .join();
  expect(said).toContain("other-vial");
  expect(said).toContain("magnesium-vial-10");
  await equalsFresh(asOf, [csv]);
  writeFileSync(csv, "stock,lot,expires\nmagnesium-vial-10,X2,2027-01-31\n");
  await tellDisk(["shelf.csv", FileChangeType.Changed]);
  await equalsFresh(asOf, [csv]);
});

test("findings in an inventory are given to an editor that asks for those of the workspace", async () => {
  const csv = path("shelf.csv");
  writeFileSync(csv, "stock,lot,expires\nno-such-stock,X1,2027-12-31\n");
  await e.quit();
  e = await start({ inventory: ["shelf.csv"], findings: "pull" });
  const { items } = await e.ask<WorkspaceDiagnosticReport>("workspace/diagnostic", { previousResultIds: [] });
  const asked = items.flatMap((i) => {
    const lines = i.kind === "full" ? i.items.map(lineOf).sort() : [];
    return lines.length > 0 ? [[i.uri, lines] as [string, string[]]] : [];
  });
  const fresh = await freshCheck(folder, asOf, unsaved, [csv]);
  expect(fresh.has(uriOf(csv))).toBe(true);
  expect(sorted(new Map(asked))).toEqual(sorted(fresh));
});

test("a file that is not UTF-8, and mended again", async () => {
  const good = readFileSync(path(recipe));
  writeFileSync(path(recipe), Buffer.concat([good, Buffer.from([0xb5])]));
  await tellDisk([recipe, FileChangeType.Changed]);
  await settled();
  const [first] = e.shown.get(uriOf(path(recipe)))!.diagnostics;
  expect(first!.code).toBe("file-not-utf-8");
  await equalsFresh();
  writeFileSync(path(recipe), `#${" ".repeat(5_000_000)}\n`);
  await tellDisk([recipe, FileChangeType.Changed]);
  await equalsFresh();
  expect(e.shown.get(uriOf(path(recipe)))!.diagnostics[0]!.code).toBe("file-too-large");
  writeFileSync(path(recipe), good);
  await tellDisk([recipe, FileChangeType.Changed]);
  expect(await equalsFresh()).toBe(usual);
});

test("another day in the settings", async () => {
  await e.tell("workspace/didChangeConfiguration", { settings: { misce: { asOf: "2031-01-01" } } });
  expect(await equalsFresh("2031-01-01")).not.toBe(usual);
});

test("at midnight lots go out without an edit", async () => {
  await e.quit();
  let now = new Date(2026, 10, 25, 23, 59, 58);
  const waiting: { at: number; run: () => void }[] = [];
  const host = {
    ...nodeHost,
    now: () => now,
    after(ms: number, run: () => void) {
      if (ms < 40) return nodeHost.after(ms, run);
      waiting.push({ at: now.getTime() + ms, run });
      return () => undefined;
    },
  };
  e = await editor({ folders: [folder], host });
  await equalsFresh("2026-11-25");
  now = new Date(2030, 0, 1, 0, 0, 1);
  for (const { run } of waiting.splice(0).filter((w) => w.at <= now.getTime())) run();
  expect(await equalsFresh("2030-01-01")).not.toBe(usual);
});

test("an editor that tells nothing of files: the disk is looked at", async () => {
  await e.quit();
  e = await editor({ folders: [folder], options: { asOf }, abilities: { textDocument: { publishDiagnostics: {} } } });
  await settled();
  writeFileSync(path(recipe), text(recipe).replace("disinfect bag\n", "\n"));
  const shown = await e.next(path(recipe));
  expect(shown.length).toBeGreaterThan(0);
  await equalsFresh();
});

test("a folder that another program deletes or moves, of which the editor tells nothing", async () => {
  // VS Code tells then of the folder alone, which the pattern for recipe files keeps back.
  const broken = e.next(path(recipe));
  renameSync(path("stock"), join(folder, "..", `${basename(folder)}-stock`));
  expect((await broken).length).toBeGreaterThan(0);
  expect(await equalsFresh()).toBeGreaterThan(usual);
  const mended = e.next(path(recipe));
  renameSync(join(folder, "..", `${basename(folder)}-stock`), path("stock"));
  expect(await mended).toEqual([]);
  expect(await equalsFresh()).toBe(usual);
}, 60_000);

test("an inventory that was not there comes, and the editor tells nothing of it", async () => {
  await e.quit();
  const csv = path("shelf.csv");
  const abilities = { textDocument: { publishDiagnostics: {} } };
  e = await editor({ folders: [folder], options: { asOf, inventory: ["shelf.csv"] }, abilities });
  await equalsFresh();
  const shown = e.next(path("stock/vials.misce"));
  writeFileSync(csv, "stock,lot,expires\nmagnesium-vial-10,X1,2020-01-31\n");
  expect((await shown).map((d) => d.code)).toContain("lot-expired");
  await equalsFresh(asOf, [csv]);
}, 60_000);

test("a folder reached by a link too keeps the names under which its files are open", async () => {
  await open(recipe);
  symlinkSync("recipes", path("a-link"));
  await tellDisk(["a-link", FileChangeType.Created]);
  expect(await equalsFresh()).toBe(usual);
});

test("killed and started again", async () => {
  await open(recipe);
  const typed = text(recipe).replace("seal bag\n", "\n");
  await type(recipe, typed);
  e.connection.dispose();
  e = await start();
  await e.open(path(recipe), typed, 9);
  await equalsFresh();
});

test("at midnight, after a text was typed in and closed again", async () => {
  await open(recipe);
  await type(recipe, text(recipe).replace("inverting", "swirling"));
  await type(recipe, text(recipe));
  unsaved.delete(path(recipe));
  await e.tell("textDocument/didClose", { textDocument: { uri: uriOf(path(recipe)) } });
  await tellDisk([recipe, FileChangeType.Changed]);
  await equalsFresh();
  await e.tell("workspace/didChangeConfiguration", { settings: { misce: { asOf: "2026-11-26" } } });
  expect(await equalsFresh("2026-11-26")).toBe(usual);
});

test("places that a finding points at in other files follow edits there", async () => {
  // Every lot has gone out: the findings of the recipes point at the lots.
  await e.tell("workspace/didChangeConfiguration", { settings: { misce: { asOf: "2031-01-01" } } });
  await settled();
  const places = () =>
    [...e.shown.values()].flatMap(({ diagnostics }) =>
      diagnostics.flatMap((d) => (d.relatedInformation ?? []).map(({ location, message }) => ({ location, message }))),
    );
  // The tree of an open recipe is kept, and its findings with it.
  await open(recipe);
  await settled();
  const own = e.shown.get(uriOf(path(recipe)))!.diagnostics.flatMap((d) => d.relatedInformation ?? []);
  expect(own.some(({ message }) => message.startsWith("lot "))).toBe(true);
  const before = text("lots.misce");
  await open("lots.misce");
  await type("lots.misce", before.replace(/^lots (\S+) \{$/gm, "lots $1 {\n  # counted"));
  await settled();
  const lines = unsaved.get(path("lots.misce"))!.split("\n");
  for (const { location, message } of places()) {
    const lot = /^lot (\S+), until/.exec(message)?.[1];
    if (lot === undefined || location.uri !== uriOf(path("lots.misce"))) continue;
    expect(lines[location.range.start.line]).toContain(`"${lot}"`);
  }
});

test("a burst of keystrokes in a recipe that takes long is looked at as one, and nothing is left behind", async () => {
  // A library of its own beside the other, whose range falls into hundreds of pieces.
  const slow = "slow/library.misce";
  mkdirSync(path("slow"));
  const whole = readFileSync("samples/faulty/range-not-decided/library.misce", "utf8");
  writeFileSync(path(slow), `site {\n  name  "Kestrel Quay Infirmary"\n}\n${whole}`);
  await tellDisk([slow, FileChangeType.Created]);
  await open(slow);
  await settled();
  const heard = e.heard.length;
  const strokes = 40;
  const before = text(slow);
  for (let stroke = 1; stroke <= strokes; stroke++) void type(slow, `${before}# ${"x".repeat(stroke)}\n`);
  await type(slow, before.replace("    inspect bag\n", ""));
  await settled();
  const looked = e.heard.slice(heard).filter(({ method }) => method === "textDocument/publishDiagnostics").length;
  expect(looked).toBeLessThan(strokes / 2);
  await equalsFresh();
});
