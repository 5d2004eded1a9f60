/** Editors that leave out, misspell or never answer what the protocol requires: served as far as can be, and told what is amiss. */
import { cpSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { PassThrough } from "node:stream";
import { afterEach, expect, test } from "vitest";
import { createConnection } from "vscode-languageserver/node";
import {
  type CodeAction,
  createMessageConnection,
  type Diagnostic,
  type MessageConnection,
  ParameterStructures,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import type { Host } from "../../server/host.ts";
import { lenientHandshake } from "../../server/lenient-handshake.ts";
import { nodeHost, windowsKey } from "../../server/node-host.ts";
import { start } from "../../server/start.ts";
import { uriOf } from "./client.ts";

const library = resolve("samples/library");
const uri = uriOf(join(library, "recipes/furosemide-50mg.misce"));
const good = readFileSync(join(library, "recipes/furosemide-50mg.misce"), "utf8");
const faulty = good.replace(/ *replace filter .*\n/, "");
const fault = "filter-used-both-ways";
const open: MessageConnection[] = [];

afterEach(() => {
  for (const connection of open.splice(0)) connection.dispose();
});

function client(host: Host = nodeHost) {
  const up = new PassThrough();
  const down = new PassThrough();
  const serving = start(
    createConnection(new StreamMessageReader(up), new StreamMessageWriter(down), lenientHandshake()),
    host,
  );
  const connection = createMessageConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  const logs: string[] = [];
  const shown = new Map<string, Diagnostic[]>();
  const versions = new Map<string, number | undefined>();
  const waiting = new Set<() => void>();
  connection.onNotification((method, params) => {
    if (method === "window/logMessage") logs.push((params as unknown as { message: string }).message);
    if (method === "textDocument/publishDiagnostics") {
      const sent = params as unknown as PublishDiagnosticsParams;
      shown.set(sent.uri, sent.diagnostics);
      versions.set(sent.uri, sent.version);
    }
    for (const look of waiting) look();
  });
  connection.listen();
  open.push(connection);
  const until = (fits: () => boolean) =>
    new Promise<void>((done) => {
      const look = () => {
        if (!fits()) return;
        waiting.delete(look);
        done();
      };
      waiting.add(look);
      look();
    });
  const codes = (of = uri) => shown.get(of)?.map((d) => d.code);
  /** By name, as an object or as nothing at all. */
  const tell = (method: string, params?: unknown) =>
    params === undefined
      ? connection.sendNotification(method)
      : connection.sendNotification(method, ParameterStructures.byName, params as object);
  const openText = (text = faulty, version: unknown = 1) =>
    tell("textDocument/didOpen", { textDocument: { uri, languageId: "", version, text } });
  const change = (contentChanges: unknown, version: unknown = 2) =>
    tell("textDocument/didChange", { textDocument: { uri, version }, contentChanges });
  const begin = async (more: object = {}) => {
    await connection.sendRequest("initialize", { processId: null, rootUri: uriOf(library), capabilities: {}, ...more });
    await tell("initialized", {});
  };
  return { serving, connection, logs, shown, versions, until, codes, tell, openText, change, begin };
}

test.each([
  ["no capabilities", { rootUri: uriOf(library) }],
  ["capabilities of null", { rootUri: uriOf(library), capabilities: null }],
  ["members of null", { capabilities: { workspace: null, textDocument: null, general: null }, workspaceFolders: null }],
  ["words in the place of lists", { capabilities: { general: { positionEncodings: "utf-8" } } }],
  ["no folder in the list but a root", { rootUri: uriOf(library), workspaceFolders: [], capabilities: {} }],
])("a handshake with %s is answered and findings come", async (_, params) => {
  const c = client();
  await expect(c.connection.sendRequest("initialize", params)).resolves.toMatchObject({ capabilities: {} });
  await c.tell("initialized", {});
  await c.openText();
  await c.until(() => c.codes()?.includes(fault) ?? false);
});

test("a handshake without parameters is answered", async () => {
  const c = client();
  await expect(c.connection.sendRequest("initialize")).resolves.toMatchObject({ capabilities: {} });
});

test.each([
  ["is not seen from here, as beyond the walls of a container,", 4711, false, null],
  ["is seen", 4711, true, 4711],
  ["is not named", null, false, null],
])("a process of the editor that %s is not watched in vain", (_, processId, isSeen, handedOn) => {
  const message = { jsonrpc: "2.0", id: 1, method: "initialize", params: { processId, capabilities: {} } };
  let given: unknown;
  lenientHandshake(() => isSeen).messageStrategy!.handleMessage(message, (handed) => {
    given = (handed as typeof message).params.processId;
  });
  expect(given).toBe(handedOn);
});

test("a folder without an address is left aside and told; the others count", async () => {
  const c = client();
  await c.begin({ workspaceFolders: [{ uri: null, name: "x" }, null, { uri: uriOf(library), name: "y" }] });
  await c.openText();
  await c.until(() => c.codes()?.includes(fault) ?? false);
  expect(c.logs.filter((text) => text.includes("without a URI"))).toHaveLength(2);
});

test("an editor that never says initialized is served from its first message on, and told", async () => {
  const c = client();
  await c.connection.sendRequest("initialize", { processId: null, rootUri: uriOf(library), capabilities: {} });
  await c.openText();
  await c.until(() => c.codes()?.includes(fault) ?? false);
  expect(c.logs).toContain("misce: textDocument/didOpen came before initialized.");
  await c.tell("initialized", {});
  expect(await c.connection.sendRequest("workspace/symbol", { query: "furosemide-50mg" })).toHaveLength(1);
});

/** An editor that is asked for its settings and answers when the test says so; the server's patience ends when the test says so. */
function slowToAnswer() {
  const runs: (() => void)[] = [];
  const after: Host["after"] = (ms, run) => {
    if (ms !== 5000) return nodeHost.after(ms, run);
    runs.push(run);
    return () => void runs.splice(runs.indexOf(run), 1);
  };
  const c = client({ ...nodeHost, after });
  const answers: ((section: unknown) => void)[] = [];
  const asked: (() => void)[] = [];
  c.connection.onRequest("workspace/configuration", () => {
    const answer = new Promise((done) => answers.push((section) => done([section])));
    for (const tell of asked.splice(0)) tell();
    return answer;
  });
  const isAsked = () => (answers.length > 0 ? Promise.resolve() : new Promise<void>((done) => asked.push(done)));
  return { ...c, answers, isAsked, endPatience: () => runs.splice(0).forEach((run) => void run()) };
}
const configurable = {
  capabilities: { workspace: { configuration: true } },
  initializationOptions: { asOf: "2026-11-25" },
};

test("settings that are not answered are not waited for, and taken when they come", async () => {
  const c = slowToAnswer();
  await c.begin(configurable);
  await c.openText();
  await c.isAsked();
  expect(c.codes()).toBeUndefined();
  c.endPatience();
  await c.until(() => c.codes() !== undefined);
  expect(c.codes()).toEqual([fault]);
  expect(c.logs.join()).toMatch(/not answered workspace\/configuration for 5 s/);
  c.answers[0]!({ asOf: "2035-01-01" });
  await c.until(() => (c.codes()?.length ?? 0) > 1);
});

test("an answer to an older question about settings does not stand before a newer one", async () => {
  const c = slowToAnswer();
  await c.begin(configurable);
  await c.isAsked();
  c.endPatience();
  await c.openText();
  await c.until(() => c.codes() !== undefined);
  await c.tell("workspace/didChangeConfiguration", { settings: null });
  await c.connection.sendRequest("workspace/symbol", { query: "" });
  expect(c.answers).toHaveLength(2);
  c.answers[1]!({ asOf: "2035-01-01" });
  await c.until(() => (c.codes()?.length ?? 0) > 1);
  const newest = c.codes();
  c.answers[0]!({ asOf: "2026-11-25" });
  await c.connection.sendRequest("workspace/symbol", { query: "" });
  await c.change([{ text: `${faulty}\n` }], 7);
  await c.until(() => c.versions.get(uri) === 7);
  expect(c.codes()).toEqual(newest);
});

test.each([null, undefined, "1", 1.5])("versions of %s are taken as they come", async (version) => {
  const c = client();
  await c.begin();
  await c.openText(faulty, version);
  await c.until(() => c.codes()?.includes(fault) ?? false);
  await c.change([{ text: good }], version);
  await c.until(() => c.codes()?.length === 0);
});

test("a range of null means the whole text", async () => {
  const c = client();
  await c.begin();
  await c.openText();
  await c.until(() => c.codes()?.includes(fault) ?? false);
  await c.change([{ range: null, rangeLength: null, text: good }]);
  await c.until(() => c.codes()?.length === 0);
});

test.each([
  ["no list", null],
  ["a change of nothing", [null]],
  ["no text", [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } }]],
  ["half a range", [{ range: { start: { line: 0, character: 0 } }, text: "" }]],
  [
    "words for numbers",
    [{ range: { start: { line: "0", character: "0" }, end: { line: 0, character: 0 } }, text: "" }],
  ],
])("a text of which a change is lost (%s) is not called clean until it comes whole", async (_, changes) => {
  const c = client();
  await c.begin();
  await c.openText(good);
  await c.until(() => c.codes()?.length === 0);
  await c.change(changes);
  await c.until(() => c.codes()?.join() === "file-not-read");
  expect(c.shown.get(uri)![0]!.message).toMatch(/not what you see.*open it again/);
  const start = { line: 0, character: 0 };
  await c.change([{ range: { start, end: start }, text: "# more\n" }], 3);
  await c.connection.sendRequest("workspace/symbol", { query: "" });
  expect(c.codes()).toEqual(["file-not-read"]);
  await c.change([{ text: faulty }], 4);
  await c.until(() => c.codes()?.join() === fault);
  expect(c.logs.join()).toContain("textDocument/didChange has no contentChanges with text");
});

test("a text whose change a fault of the server kept out is not called clean", async () => {
  const c = client();
  await c.begin();
  await c.openText(good);
  await c.until(() => c.codes()?.length === 0);
  const { session } = c.serving;
  const { change } = session;
  session.change = () => {
    throw new Error("a fault");
  };
  await c.change([{ text: faulty }]);
  await c.until(() => c.codes()?.join() === "file-not-read");
  session.change = change;
  await c.change([{ text: faulty }], 3);
  await c.until(() => c.codes()?.join() === fault);
});

test("notifications that say too little are told, and the session goes on", async () => {
  const c = client();
  await c.begin();
  await c.tell("textDocument/didOpen", { textDocument: { uri: uriOf("/no/where.misce") } });
  await c.tell("textDocument/didClose", {});
  await c.change([{ text: good }]);
  for (const method of ["ChangeWatchedFiles", "ChangeWorkspaceFolders", "ChangeConfiguration", "RenameFiles"])
    await c.tell(`workspace/did${method}`, {});
  expect(await c.connection.sendRequest("workspace/symbol", { query: "furosemide-50mg" })).toHaveLength(1);
  expect(c.logs).toEqual([
    "misce: textDocument/didOpen has no text: textDocument.text is missing.",
    "misce: textDocument/didClose names no document: textDocument.uri is missing.",
    `misce: textDocument/didChange names ${uri}, which is not open.`,
  ]);
});

test("requests that leave out what can be guessed are answered", async () => {
  const c = client();
  await c.begin();
  await c.openText();
  const textDocument = { uri };
  const line = faulty.split("\n").findIndex((text) => text.includes("saline-bag-100"));
  const position = { line, character: faulty.split("\n")[line]!.indexOf("saline") };
  const ask = <R>(method: string, params: object) => c.connection.sendRequest<R>(method, params);
  expect((await ask<unknown[]>("textDocument/references", { textDocument, position })).length).toBeGreaterThan(2);
  expect(await ask("textDocument/codeAction", { textDocument, range: { start: position, end: position } })).toEqual([]);
  expect(await ask("textDocument/semanticTokens/full/delta", { textDocument })).toHaveProperty("data");
  expect((await ask<{ items: unknown[] }>("workspace/diagnostic", {})).items.length).toBeGreaterThan(2);
});

test("who asks over the whole text for the fixes of a named finding is sent its fix and nothing that is a choice", async () => {
  const c = client();
  await c.begin();
  await c.openText();
  await c.until(() => c.codes()?.includes(fault) ?? false);
  const diagnostics = c.shown.get(uri)!;
  const whole = { start: { line: 0, character: 0 }, end: { line: faulty.split("\n").length - 1, character: 0 } };
  const ask = (range: object, context: object) =>
    c.connection.sendRequest<CodeAction[]>("textDocument/codeAction", { textDocument: { uri }, range, context });
  const titles = async (range: object, context: object) => (await ask(range, context)).map((a) => a.title);
  expect(await titles(whole, { diagnostics })).toEqual(["Replace filter with needle before"]);
  expect(await titles(whole, { diagnostics: [{ ...diagnostics[0], code: "capital-letters" }] })).toEqual([]);
  const all = await titles(diagnostics[0]!.range, { diagnostics });
  expect(all.length).toBeGreaterThan(2);
  expect(await titles(whole, { diagnostics, triggerKind: 1 })).toEqual(expect.arrayContaining(all));
});

test("an editor that never answers whether it watches files is not relied on for it", async () => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-unwatched-")));
  try {
    cpSync(library, folder, { recursive: true });
    const c = client({ ...nodeHost, after: (ms, run) => nodeHost.after(Math.min(ms, 40), run) });
    c.connection.onRequest("client/registerCapability", () => new Promise(() => undefined));
    const capabilities = { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } };
    await c.begin({ rootUri: uriOf(folder), capabilities });
    await c.connection.sendRequest("workspace/symbol", { query: "" });
    const recipe = join(folder, "recipes/furosemide-50mg.misce");
    writeFileSync(recipe, faulty);
    await c.until(() => c.codes(uriOf(recipe))?.includes(fault) ?? false);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("a clean text opened before the library is read is told of all the same, with its version", async () => {
  const c = client();
  await c.begin({ initializationOptions: { asOf: "2026-11-25" } });
  await c.openText(good, 7);
  await c.until(() => c.versions.get(uri) === 7);
  expect(c.codes()).toEqual([]);
});

test("a file has one key, whichever case its scheme is written in", () => {
  // RFC 3986, 3.1: schemes are case-insensitive.
  expect(nodeHost.keyOf(uri.replace("file:", "FILE:"))).toBe(nodeHost.keyOf(uri));
});

test("a file on a drive has one key, however the letter is written", () => {
  expect(windowsKey("c:\\recipes\\a.misce")).toBe("C:/recipes/a.misce");
  expect(windowsKey("C:\\recipes\\a.misce")).toBe("C:/recipes/a.misce");
  expect(windowsKey("\\\\server\\c:\\a.misce")).toBe("//server/c:/a.misce");
});
