/** The order of a session and what poor editors may be sent, by the specification of the Language Server Protocol 3.17. */
import { cpSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { PassThrough } from "node:stream";
import { afterEach, expect, test } from "vitest";
import { createConnection } from "vscode-languageserver/node";
import {
  type CodeAction,
  type CompletionList,
  createMessageConnection,
  type Hover,
  type InitializeResult,
  type MessageConnection,
  type PublishDiagnosticsParams,
  type SignatureHelp,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import type { Host } from "../../server/host.ts";
import { nodeHost } from "../../server/node-host.ts";
import { start } from "../../server/start.ts";
import { uriOf } from "./client.ts";

const library = resolve("samples/library");
const path = join(library, "recipes/furosemide-50mg.misce");
const uri = uriOf(path);
const faulty = readFileSync(path, "utf8").replace(/ *replace filter .*\n/, "");
const open: MessageConnection[] = [];

afterEach(() => {
  for (const connection of open.splice(0)) connection.dispose();
});

/** A connection before the handshake. Requests of the server are refused, as by an editor that knows none. */
function bare(host: Host = nodeHost) {
  const up = new PassThrough();
  const down = new PassThrough();
  start(createConnection(new StreamMessageReader(up), new StreamMessageWriter(down)), host);
  const connection = createMessageConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  const heard: { method: string; params: unknown }[] = [];
  const waiting: ((sent: PublishDiagnosticsParams) => void)[] = [];
  const listening = new Map<string, () => void>();
  connection.onNotification((method, params) => {
    heard.push({ method, params });
    listening.get(method)?.();
    if (method === "textDocument/publishDiagnostics") for (const tell of waiting) tell(params as never);
  });
  connection.listen();
  open.push(connection);
  const told = (fits: (sent: PublishDiagnosticsParams) => boolean) =>
    new Promise<PublishDiagnosticsParams>((done) => waiting.push((sent) => fits(sent) && done(sent)));
  /** Resolves when a notification has come, before or after it is asked for. */
  const hears = (method: string) =>
    heard.some((m) => m.method === method)
      ? Promise.resolve()
      : new Promise<void>((done) => void listening.set(method, done));
  return { connection, heard, told, hears };
}

type Start = Record<string, unknown>;

async function begun(more: Start, host?: Host) {
  const s = bare(host);
  const params = { processId: null, rootUri: null, capabilities: {}, ...more };
  const { capabilities } = await s.connection.sendRequest<InitializeResult>("initialize", params);
  await s.connection.sendNotification("initialized", {});
  return { ...s, offers: capabilities, ask: <R>(method: string, p: unknown) => s.connection.sendRequest<R>(method, p) };
}

async function withRecipe(more: Start, host?: Host) {
  const s = await begun({ rootUri: uriOf(library), ...more }, host);
  const first = s.told((sent) => sent.uri === uri && sent.version === 1);
  const textDocument = { uri, languageId: "misce", version: 1, text: faulty };
  await s.connection.sendNotification("textDocument/didOpen", { textDocument });
  return { ...s, findings: (await first).diagnostics };
}

function placeOf(words: string) {
  const before = faulty.slice(0, faulty.indexOf(words)).split("\n");
  return { textDocument: { uri }, position: { line: before.length - 1, character: before.at(-1)!.length } };
}

test("nothing is answered before initialize, nor after shutdown, and nothing is sent then", async () => {
  const { connection, heard } = bare();
  const symbols = () => connection.sendRequest("workspace/symbol", { query: "" });
  await expect(symbols()).rejects.toMatchObject({ code: -32002 });
  const params = { processId: null, rootUri: null, capabilities: {} };
  await connection.sendRequest("initialize", params);
  await expect(connection.sendRequest("initialize", params)).rejects.toMatchObject({ code: -32600 });
  await connection.sendNotification("initialized", {});
  await symbols();
  expect(await connection.sendRequest("shutdown")).toBeNull();
  const before = heard.length;
  await expect(symbols()).rejects.toMatchObject({ code: -32600 });
  const textDocument = { uri, languageId: "misce", version: 1, text: faulty };
  await connection.sendNotification("textDocument/didOpen", { textDocument });
  await expect(symbols()).rejects.toMatchObject({ code: -32600 });
  expect(heard.slice(before)).toEqual([]);
});

test("an editor that refuses every request is told of a wrong setting and goes on", async () => {
  const s = await withRecipe({ initializationOptions: { asOf: "yesterday" } });
  expect(s.heard.find((m) => m.method === "window/showMessage")?.params).toMatchObject({ type: 2 });
  expect(s.findings.map((d) => d.code)).toContain("filter-used-both-ways");
});

test("refused refreshes and watching change nothing", async () => {
  const refreshes = { refreshSupport: true };
  const workspace = {
    didChangeWatchedFiles: { dynamicRegistration: true },
    configuration: true,
    diagnostics: refreshes,
    semanticTokens: refreshes,
    inlayHint: refreshes,
    codeLens: refreshes,
  };
  const s = await begun({ rootUri: uriOf(library), capabilities: { workspace, textDocument: { diagnostic: {} } } });
  const textDocument = { uri, languageId: "misce", version: 1, text: faulty };
  await s.connection.sendNotification("textDocument/didOpen", { textDocument });
  const report = await s.ask<{ items: { code: string }[] }>("textDocument/diagnostic", { textDocument: { uri } });
  expect(report.items.map((d) => d.code)).toContain("filter-used-both-ways");
  await new Promise((done) => setTimeout(done, 100));
  expect(await s.ask("workspace/symbol", { query: "furosemide-50mg" })).toHaveLength(1);
});

test("what is sent beside the protocol goes to an editor that is made for it alone", async () => {
  // What waits a moment comes at once, so that no clock decides; the calendar and the look at the disk keep theirs.
  const host = { ...nodeHost, after: (ms: number, run: () => void) => nodeHost.after(ms < 1000 ? 0 : ms, run) };
  const other = await withRecipe({}, host);
  const own = await withRecipe({ initializationOptions: { commands: [] } }, host);
  await own.hears("misce/status");
  await other.ask("workspace/symbol", { query: "" });
  expect(other.heard.map((m) => m.method)).not.toContain("misce/status");
}, 120_000);

test("a folder given as a path is read as one given as a URI", async () => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-path-")));
  try {
    cpSync(library, folder, { recursive: true });
    writeFileSync(join(folder, "recipes/furosemide-50mg.misce"), faulty);
    const s = bare();
    const closed = s.told((sent) => sent.uri === uriOf(join(folder, "recipes/furosemide-50mg.misce")));
    const params = { processId: null, rootPath: folder, rootUri: null, capabilities: {} };
    await s.connection.sendRequest("initialize", params);
    await s.connection.sendNotification("initialized", {});
    expect((await closed).diagnostics.map((d) => d.code)).toContain("filter-used-both-ways");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("an editor of few abilities is sent nothing that it does not know", async () => {
  const taken = ["plaintext"];
  const textDocument = {
    publishDiagnostics: {},
    hover: { contentFormat: taken },
    completion: { completionItem: { documentationFormat: taken } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } },
  };
  const s = await withRecipe({ capabilities: { textDocument } });
  expect(s.offers.renameProvider).toBe(true);
  for (const finding of s.findings) expect(Object.keys(finding)).not.toContain("tags");
  const hover = await s.ask<Hover>("textDocument/hover", placeOf("saline-bag-100"));
  expect(hover.contents).toMatchObject({ kind: "plaintext", value: expect.not.stringContaining("**") });
  expect(hover.contents).toMatchObject({ value: expect.stringMatching(/^stock saline-bag-100/) });
  const { items } = await s.ask<CompletionList>("textDocument/completion", placeOf("saline-bag-100"));
  const described = await s.ask(
    "completionItem/resolve",
    items.find((i) => i.data),
  );
  expect(described).toMatchObject({ documentation: { kind: "plaintext", value: expect.not.stringContaining("**") } });
  const help = await s.ask<SignatureHelp>("textDocument/signatureHelp", placeOf("50 mg from"));
  const parts = help.signatures[0]!.parameters!.map((p) => p.label);
  expect(parts.length).toBeGreaterThan(0);
  for (const part of parts) expect(help.signatures[0]!.label).toContain(part);
  expect(help.signatures.some((signature) => "activeParameter" in signature)).toBe(false);
});

test.each([
  ["keeps data", true],
  ["does not keep data", false],
])("a fix is made for an editor that says it %s and drops it", async (_, dataSupport) => {
  const codeAction = {
    dataSupport,
    resolveSupport: { properties: ["edit"] },
    codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } },
  };
  const s = await withRecipe({ capabilities: { textDocument: { publishDiagnostics: {}, codeAction } } });
  const { range } = s.findings.find((d) => d.code === "filter-used-both-ways")!;
  const asked = { textDocument: { uri }, range, context: { diagnostics: [] } };
  const actions = await s.ask<CodeAction[]>("textDocument/codeAction", asked);
  const { data: _dropped, ...fix } = actions.find((a) => a.title.startsWith("Replace filter"))!;
  expect(fix.edit === undefined).toBe(dataSupport);
  const whole = fix.edit ? fix : await s.ask<CodeAction>("codeAction/resolve", fix);
  expect(whole.edit?.changes?.[uri]).toMatchObject([{ newText: "    replace filter on syringe with needle\n" }]);
});

test("an editor that counts in bytes without a word for it in the handshake says so in its options", async () => {
  const s = await begun({ initializationOptions: { positionEncodings: ["utf-8"] } });
  expect(s.offers.positionEncoding).toBe("utf-8");
});

test("a library that lies around the watched folder is looked at too", async () => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-around-")));
  try {
    cpSync(library, folder, { recursive: true });
    const soon: Host = { ...nodeHost, after: (ms, run) => nodeHost.after(Math.min(ms, 40), run) };
    const capabilities = { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } };
    const s = bare(soon);
    s.connection.onRequest(() => null);
    const recipe = uriOf(join(folder, "recipes/furosemide-50mg.misce"));
    const params = { processId: null, rootUri: uriOf(join(folder, "recipes")), capabilities };
    await s.connection.sendRequest("initialize", params);
    await s.connection.sendNotification("initialized", {});
    await s.connection.sendRequest("workspace/symbol", { query: "" });
    const stale = s.told((sent) => sent.uri === recipe && sent.diagnostics.some((d) => d.code === "unknown-name"));
    const stock = join(folder, "stock/ampoules.misce");
    writeFileSync(stock, readFileSync(stock, "utf8").replaceAll("furosemide-ampoule", "furosemide-ampule"));
    await stale;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
