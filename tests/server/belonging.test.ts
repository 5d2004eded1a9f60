/**
 * Which texts belong to a library, and which do not: as `misce check` of the workspace folder takes them. What belongs to none is told
 * so; it is neither judged against half a library nor lets the library seem to have what it has not.
 */
import { execFileSync } from "node:child_process";
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { FileChangeType } from "vscode-languageserver-protocol";
import { type Editor, editor, uriOf } from "./client.ts";
import { freshCheck, lineOf, shownNow, sorted } from "./fresh.ts";

const asOf = "2026-11-25";
const recipe = "recipes/magnesium-4g.misce";
let base: string;
let folder: string;
let e: Editor;

const path = (file: string) => join(folder, file);
const text = (file: string) => readFileSync(path(file), "utf8");

beforeEach(() => {
  base = realpathSync(mkdtempSync(join(tmpdir(), "misce-belongs-")));
  folder = join(base, "library");
  const part = (from: string) => !/recipes\/./.test(from) || /magnesium-4g/.test(from);
  cpSync("samples/library", folder, { recursive: true, filter: part });
});

afterEach(async () => {
  await e.quit();
  rmSync(base, { recursive: true, force: true });
});

async function start(options: Record<string, unknown> = {}, folders = [folder]): Promise<void> {
  e = await editor({ folders, options: { asOf, ...options } });
  await settled();
}

async function settled(): Promise<void> {
  for (let round = 0; round < 4; round++) {
    await e.ask("workspace/symbol", { query: "no such name" });
    await e.serving!.publisher.settled();
  }
}

const shown = (uri: string) => (e.shown.get(uri)?.diagnostics ?? []).map(lineOf);

/** What is shown of the library's own files, others left out. */
async function libraryEqualsFresh(...others: string[]): Promise<void> {
  await settled();
  const left = new Set(others.map((file) => uriOf(path(file))));
  const own = [...shownNow(e)].filter(([uri]) => !left.has(uri));
  expect(sorted(new Map(own))).toEqual(sorted(await freshCheck(folder, asOf)));
}

async function openUri(uri: string, content: string): Promise<void> {
  await e.tell("textDocument/didOpen", { textDocument: { uri, languageId: "misce", version: 1, text: content } });
  await settled();
}

async function close(uri: string): Promise<void> {
  await e.tell("textDocument/didClose", { textDocument: { uri } });
  await settled();
}

function put(file: string, content: string): void {
  mkdirSync(dirname(path(file)), { recursive: true });
  writeFileSync(path(file), content);
}

test.each([".history/copy.misce", "recipes/node_modules/x/copy.misce"])(
  "%s lies where no check looks: the library does not have what it declares",
  async (copy) => {
    await start();
    put(copy, text(recipe));
    await e.tell("workspace/didChangeWatchedFiles", {
      changes: [{ uri: uriOf(path(copy)), type: FileChangeType.Created }],
    });
    await libraryEqualsFresh();
    await e.open(path(copy), `${text(recipe)}\nstock no-such-vial {\n}\n`);
    await libraryEqualsFresh(copy);
    expect(shown(uriOf(path(copy)))).toEqual([
      expect.stringMatching(
        /^2 not-checked .* was not checked: a check of the library does not look into `(\.history|node_modules)`/,
      ),
    ]);
    await e.change(path(copy), 2, "stock no-such-vial {\n");
    await libraryEqualsFresh(copy);
    expect(shown(uriOf(path(copy)))).toHaveLength(1);
    await close(uriOf(path(copy)));
    await libraryEqualsFresh();
    expect(shown(uriOf(path(copy)))).toEqual([]);
  },
);

test("a whole library in a folder that is left out, as of another branch, speaks for itself", async () => {
  const other = ".worktrees/other";
  mkdirSync(join(base, "copy"));
  cpSync(folder, join(base, "copy"), { recursive: true });
  cpSync(join(base, "copy"), path(other), { recursive: true });
  put(`${other}/stock/vials.misce`, text("stock/vials.misce").replace("magnesium-vial-10", "magnesium-vial-11"));
  await start();
  await libraryEqualsFresh();
  const file = join(other, recipe);
  await openUri(uriOf(path(file)), text(file));
  await libraryEqualsFresh(file);
  const alone = await freshCheck(path(other), asOf);
  expect(shown(uriOf(path(file))).sort()).toEqual(alone.get(uriOf(path(file))));
});

test("a file opened by a link is the file that the library has, not a second one", async () => {
  await start();
  symlinkSync("recipes", path("current"));
  await e.tell("workspace/didChangeWatchedFiles", {
    changes: [{ uri: uriOf(path("current")), type: FileChangeType.Created }],
  });
  const byLink = "current/magnesium-4g.misce";
  await openUri(uriOf(path(byLink)), text(recipe));
  await libraryEqualsFresh(byLink);
  expect(shown(uriOf(path(byLink)))).toEqual([expect.stringMatching(/^2 not-checked .* under another name/)]);
  // Events and closing name it by the link too.
  await e.tell("workspace/didChangeWatchedFiles", {
    changes: [{ uri: uriOf(path(byLink)), type: FileChangeType.Changed }],
  });
  await close(uriOf(path(byLink)));
  await libraryEqualsFresh();
});

test("a window on a folder that a link leads to shows its files by that name", async () => {
  put(recipe, text(recipe).replace("disinfect bag\n", "\n"));
  const link = join(base, "link");
  symlinkSync(folder, link);
  await start({}, [link]);
  await openUri(uriOf(join(link, recipe)), text(recipe));
  const fresh = await freshCheck(folder, asOf);
  expect(fresh.size).toBeGreaterThan(0);
  const byLink = [...fresh].map(([uri, said]) => [uri.replace(uriOf(folder), uriOf(link)), said] as [string, string[]]);
  expect(sorted(shownNow(e))).toEqual(sorted(new Map(byLink)));
});

test("what a link brings in from outside is looked at, of which no editor tells", async () => {
  const outside = join(base, "shared-stock");
  cpSync(path("stock"), outside, { recursive: true });
  rmSync(path("stock"), { recursive: true });
  symlinkSync(outside, path("stock"));
  await start();
  await libraryEqualsFresh();
  writeFileSync(
    join(outside, "vials.misce"),
    readFileSync(join(outside, "vials.misce"), "utf8").replace("magnesium-vial-10", "magnesium-vial-11"),
  );
  const codes = () => (e.shown.get(uriOf(path(recipe)))?.diagnostics ?? []).map((d) => d.code);
  await expect.poll(codes, { timeout: 120_000 }).toContain("unknown-name");
}, 20_000);

test.each([false, true])(
  "a change right after the reading is not missed, brought in by a link: %s",
  async (isLinked) => {
    const outside = join(base, "shared-stock");
    if (isLinked) {
      cpSync(path("stock"), outside, { recursive: true });
      rmSync(path("stock"), { recursive: true });
      symlinkSync(outside, path("stock"));
    }
    const vials = join(isLinked ? outside : path("stock"), "vials.misce");
    e = await editor({ folders: [folder], options: { asOf } });
    // Before the first look at the disk, and before an editor that was asked to watch does so.
    await e.serving!.ready;
    writeFileSync(vials, readFileSync(vials, "utf8").replace("magnesium-vial-10", "magnesium-vial-11"));
    const codes = () => (e.shown.get(uriOf(path(recipe)))?.diagnostics ?? []).map((d) => d.code);
    await expect.poll(codes, { timeout: 120_000 }).toContain("unknown-name");
    await libraryEqualsFresh();
  },
  20_000,
);

test("an unsaved recipe is judged by the library that is open", async () => {
  await start();
  const uri = "untitled:Untitled-1";
  await openUri(uri, text(recipe).replaceAll("magnesium-4g", "magnesium-five").replace("disinfect bag\n", "\n"));
  const codes = () => e.shown.get(uri)!.diagnostics.map((d) => d.code);
  expect(codes()).not.toContain("unknown-name");
  expect(codes().length).toBeGreaterThan(0);
  await close(uri);
  await libraryEqualsFresh();
});

test("an unsaved recipe that knows its place is judged by the library there", async () => {
  const second = join(base, "second");
  cpSync("samples/faulty/lot-expired", second, { recursive: true });
  writeFileSync(join(second, "site.misce"), 'site {\n  name  "Kestrel Quay Infirmary"\n}\n');
  await start({}, [folder, second]);
  const content = text(recipe).replaceAll("magnesium-4g", "magnesium-five");
  const placed = `untitled:${path("recipes/magnesium-five.misce")}`;
  await openUri(placed, content);
  expect(shown(placed)).toEqual([]);
  // Without a place nobody knows which of the two is meant.
  await openUri("untitled:Untitled-1", content);
  expect(shown("untitled:Untitled-1")).toEqual([
    expect.stringMatching(/^2 not-checked .* several libraries are open here/),
  ]);
});

test("exports of the same name in two folders are two", async () => {
  const second = join(base, "second");
  cpSync("samples/faulty/lot-expired", second, { recursive: true });
  writeFileSync(join(second, "site.misce"), 'site {\n  name  "Kestrel Quay Infirmary"\n}\n');
  writeFileSync(path("shelf.csv"), "stock,lot,expires\nmagnesium-vial-10,X1,2020-01-31\n");
  writeFileSync(join(second, "shelf.csv"), "stock,lot,expires\nno-such-stock,X1,2027-12-31\n");
  await start({ inventory: ["shelf.csv"] }, [folder, second]);
  const fresh = [
    ...(await freshCheck(folder, asOf, new Map(), [path("shelf.csv")])),
    ...(await freshCheck(second, asOf, new Map(), [join(second, "shelf.csv")])),
  ].map(([uri, said]): [string, string[]] => [
    uri,
    said.map((line) => line.replaceAll(/(library|second)\/shelf/g, "shelf")),
  ]);
  const own = [...shownNow(e)].map(([uri, said]): [string, string[]] => [
    uri,
    said.map((line) => line.replaceAll(/(library|second)\/shelf/g, "shelf")),
  ]);
  expect(fresh.map(([uri]) => uri)).toEqual(expect.arrayContaining([uriOf(join(second, "shelf.csv"))]));
  expect(sorted(new Map(own))).toEqual(sorted(new Map(fresh)));
});

test("a folder with a recipe's ending is a folder, and a pipe with it stops nobody", async () => {
  execFileSync("mkfifo", [path("pipe.misce")]);
  await start();
  await openUri(uriOf(path(recipe)), text(recipe));
  cpSync(path("stock"), path("shelf.misce"), { recursive: true });
  rmSync(path("stock"), { recursive: true });
  await e.tell("workspace/didChangeWatchedFiles", {
    changes: [
      { uri: uriOf(path("stock")), type: FileChangeType.Deleted },
      { uri: uriOf(path("shelf.misce")), type: FileChangeType.Created },
      { uri: uriOf(path("pipe.misce")), type: FileChangeType.Created },
    ],
  });
  rmSync(path("pipe.misce")); // a copy of the folder would wait for it
  await libraryEqualsFresh();
}, 20_000);

test("a text that would be no readable file is told as one while it is open", async () => {
  await start();
  await e.open(path("stock/vials.misce"), `\0${text("stock/vials.misce")}`);
  put("stock/vials.misce", `\0${text("stock/vials.misce")}`);
  await libraryEqualsFresh();
  expect(shown(uriOf(path("stock/vials.misce")))).toEqual([expect.stringMatching(/^1 file-not-utf-8 /)]);
  const position = { line: 3, character: 4 };
  const textDocument = { uri: uriOf(path("stock/vials.misce")) };
  expect(await e.ask("textDocument/hover", { textDocument, position })).toBeNull();
});

test("a link that leads to no file is told, since what it should bring in is missing", async () => {
  symlinkSync("../elsewhere/vials.misce", path("stock/more-vials.misce"));
  await start();
  expect(shown(uriOf(path("stock/more-vials.misce")))).toEqual([
    expect.stringMatching(/^1 file-not-read .* a link that leads to no file/),
  ]);
  put("elsewhere/vials.misce", "stock nobody-uses-it {\n}\n");
  await e.tell("workspace/didChangeWatchedFiles", {
    changes: [{ uri: uriOf(path("elsewhere/vials.misce")), type: FileChangeType.Created }],
  });
  await expect.poll(() => shown(uriOf(path("stock/more-vials.misce"))), { timeout: 120_000 }).toEqual([]);
}, 20_000);

test("a link that leads to itself is told in words", async () => {
  symlinkSync("more-vials.misce", path("stock/more-vials.misce"));
  await start();
  expect(shown(uriOf(path("stock/more-vials.misce")))).toEqual([
    expect.stringMatching(/^1 file-not-read .* \(its links lead in a circle\)/),
  ]);
}, 20_000);
