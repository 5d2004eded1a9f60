/** The real bundle as a process over standard streams: every offered request over a whole library, every answer held against its shape. */
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { methods } from "../../server/methods.ts";
import { editorCommands } from "../../shared/editor-requests.ts";
import { type Editor, editor, uriOf } from "./client.ts";
import { type Message, unlikeTheTypes } from "./message-types.ts";
import { hasShape, shapedMethods } from "./shapes.ts";

const folder = resolve("samples/library");
const path = join(folder, "recipes/magnesium-4g.misce");
const text = readFileSync(path, "utf8");
const uri = uriOf(path);
let build: string;
let e: Editor;

beforeAll(async () => {
  build = mkdtempSync(join(tmpdir(), "misce-server-"));
  const bundle = join(build, "server.js");
  const { bundleServer } = await import(new URL("../../server/build.mjs", import.meta.url).href);
  await bundleServer(bundle);
  const commands = Object.values(editorCommands);
  e = await editor({ folders: [folder], bundle, options: { asOf: "2026-11-25", commands } });
  const first = e.next(path);
  await e.open(path, text);
  await first;
});

afterAll(async () => {
  await e.quit();
  expect(e.child!.exitCode).toBe(0);
  for (const { method, params } of e.heard) if (shapedMethods.has(method)) hasShape(method, params);
  const isRequest = (method: string) => /^(client|workspace)\//.test(method);
  const sent = e.heard.map(({ method, params }): Message => {
    return { method, part: isRequest(method) ? "params" : "note", value: params };
  });
  const answers: Message[] = [{ method: "initialize", part: "result", value: e.result }, ...answered];
  expect(unlikeTheTypes([...answers, ...sent])).toEqual([]);
  rmSync(build, { recursive: true, force: true });
});

const answered: Message[] = [];
const lines = text.split("\n");
const textDocument = { uri };
const whole = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
const places = lines.flatMap((line, number) =>
  [2, 8, 20, line.length].map((character) => ({ line: number, character: Math.min(character, line.length) })),
);

async function asked(method: string, params: unknown): Promise<unknown> {
  const answer = await e.ask(method, params);
  hasShape(method, answer);
  answered.push({ method, part: "result", value: answer });
  return answer;
}

test.each([
  "textDocument/hover",
  "textDocument/completion",
  "textDocument/signatureHelp",
  "textDocument/definition",
  "textDocument/declaration",
  "textDocument/typeDefinition",
  "textDocument/documentHighlight",
  "textDocument/prepareCallHierarchy",
])("%s at every line", async (method) => {
  let answered = 0;
  for (const position of places) {
    const answer = await asked(method, { textDocument, position });
    if (answer !== null && !(Array.isArray(answer) && answer.length === 0)) answered++;
  }
  expect(answered).toBeGreaterThan(5);
});

test("references, rename and its preparation", async () => {
  const line = lines.findIndex((l) => l.includes("magnesium-vial-10"));
  const position = { line, character: lines[line]!.indexOf("magnesium-vial-10") + 2 };
  const found = (await asked("textDocument/references", {
    textDocument,
    position,
    context: { includeDeclaration: true },
  })) as unknown[];
  expect(found.length).toBeGreaterThan(3);
  await asked("textDocument/prepareRename", { textDocument, position });
  const edit = (await asked("textDocument/rename", { textDocument, position, newName: "magnesium-glass-10" })) as {
    documentChanges: unknown[];
  };
  expect(edit.documentChanges.length).toBeGreaterThan(2);
  const refused = e.ask("textDocument/rename", { textDocument, position, newName: "no name" });
  await expect(refused).rejects.toThrow(/cannot be a name/);
});

test.each([
  ["textDocument/documentSymbol", { textDocument }],
  ["workspace/symbol", { query: "mg4" }],
  ["textDocument/foldingRange", { textDocument }],
  ["textDocument/selectionRange", { textDocument, positions: [places[20]] }],
  ["textDocument/semanticTokens/full", { textDocument }],
  ["textDocument/semanticTokens/range", { textDocument, range: whole }],
  ["textDocument/inlayHint", { textDocument, range: whole }],
  ["textDocument/codeLens", { textDocument }],
  ["textDocument/documentLink", { textDocument: { uri: uriOf(join(folder, "drugs/magnesium-sulfate.misce")) } }],
  ["textDocument/codeAction", { textDocument, range: whole, context: { diagnostics: [] } }],
] as const)("%s", async (method, params) => {
  const answer = (await asked(method, params)) as unknown[] | { data: number[] };
  expect(Array.isArray(answer) ? answer.length : answer.data.length).toBeGreaterThan(0);
});

test.each([
  ["textDocument/formatting", { textDocument, options: { tabSize: 2, insertSpaces: true } }],
  ["textDocument/rangeFormatting", { textDocument, range: whole, options: { tabSize: 2, insertSpaces: true } }],
  ["textDocument/rangesFormatting", { textDocument, ranges: [whole], options: { tabSize: 2, insertSpaces: true } }],
  [
    "textDocument/onTypeFormatting",
    { textDocument, position: { line: 3, character: 0 }, ch: "\n", options: { tabSize: 2, insertSpaces: true } },
  ],
] as const)("%s of a canonical file changes nothing", async (method, params) => {
  expect(await asked(method, params)).toEqual([]);
});

test("what is resolved later", async () => {
  const lens = (await asked("textDocument/codeLens", {
    textDocument: { uri: uriOf(join(folder, "stock/vials.misce")) },
  })) as unknown[];
  await asked("codeLens/resolve", lens[0]);
  const hints = (await asked("textDocument/inlayHint", { textDocument, range: whole })) as unknown[];
  await asked("inlayHint/resolve", hints[0]);
  const at = lines.findIndex((l) => l.includes("magnesium-vial-10"));
  const list = (await asked("textDocument/completion", { textDocument, position: { line: at, character: 17 } })) as {
    items: { data?: unknown }[];
  };
  const described = (await asked(
    "completionItem/resolve",
    list.items.find((i) => i.data),
  )) as { documentation?: unknown };
  expect(described.documentation).toBeDefined();
});

test("which recipes use a stock", async () => {
  const line = lines.findIndex((l) => l.includes("magnesium-vial-10"));
  const position = { line, character: lines[line]!.indexOf("magnesium-vial-10") + 2 };
  const [item] = (await asked("textDocument/prepareCallHierarchy", { textDocument, position })) as unknown[];
  const calls = (await asked("callHierarchy/incomingCalls", { item })) as { from: { name: string } }[];
  expect(calls.map((c) => c.from.name)).toContain("magnesium-4g");
  await asked("callHierarchy/outgoingCalls", { item });
});

test("findings on request: unchanged ones are not sent again, closed files included", async () => {
  const first = (await asked("textDocument/diagnostic", { textDocument })) as { resultId: string };
  const again = (await asked("textDocument/diagnostic", { textDocument, previousResultId: first.resultId })) as {
    kind: string;
  };
  expect(again.kind).toBe("unchanged");
  const all = (await asked("workspace/diagnostic", { previousResultIds: [] })) as {
    items: { uri: string; resultId: string }[];
  };
  expect(all.items.length).toBeGreaterThan(60);
  const previousResultIds = all.items.map((i) => ({ uri: i.uri, value: i.resultId }));
  const later = (await asked("workspace/diagnostic", { previousResultIds })) as { items: { kind: string }[] };
  expect(later.items.every((i) => i.kind === "unchanged")).toBe(true);
});

test("token differences give the whole again", async () => {
  const full = (await asked("textDocument/semanticTokens/full", { textDocument })) as {
    resultId: string;
    data: number[];
  };
  const next = e.next(path);
  await e.change(path, 2, text.replace("4 h", "5 h\n    # said twice"));
  await next;
  const delta = (await asked("textDocument/semanticTokens/full/delta", {
    textDocument,
    previousResultId: full.resultId,
  })) as {
    edits: { start: number; deleteCount: number; data?: number[] }[];
  };
  const data = [...full.data];
  for (const { start, deleteCount, data: put = [] } of delta.edits) data.splice(start, deleteCount, ...put);
  expect(data).toEqual(
    ((await asked("textDocument/semanticTokens/full", { textDocument })) as { data: number[] }).data,
  );
  const back = e.next(path);
  await e.change(path, 3, text);
  await back;
});

test("a request that makes no sense is an answer or an error, never the end", async () => {
  await expect(
    e.ask("textDocument/hover", { textDocument: { uri: "nothing:here" }, position: { line: 9, character: 9 } }),
  ).resolves.toBeNull();
  await expect(e.ask("textDocument/implementation", { textDocument, position: places[0] })).rejects.toThrow();
  await expect(e.ask("codeAction/resolve", { title: "x", data: { what: "fix", uri: 7 } })).resolves.toMatchObject({
    title: "x",
  });
  expect(await asked("textDocument/hover", { textDocument, position: { line: 1e9, character: 1e9 } })).toBeNull();
  expect(await e.ask("textDocument/hover", { textDocument, position: { line: 3, character: 5 } })).toBeTruthy();
});

test.each([
  ["textDocument/hover", undefined],
  ["textDocument/hover", { textDocument }],
  ["textDocument/completion", { position: { line: 0, character: 0 } }],
  ["textDocument/definition", { textDocument, position: { line: "0", character: 0 } }],
  ["textDocument/inlayHint", { textDocument, range: { start: { line: 0, character: 0 } } }],
  ["workspace/symbol", undefined],
  ["workspace/symbol", {}],
  ["textDocument/rename", { textDocument, position: { line: 0, character: 0 } }],
  ["textDocument/selectionRange", { textDocument, positions: [null] }],
  ["textDocument/rangesFormatting", { textDocument }],
  ["callHierarchy/incomingCalls", { item: null }],
  ["misce/preview", {}],
])("%s with %j is answered by what it lacks, as InvalidParams", async (method, params) => {
  const answer = e.connection.sendRequest(method, ...(params === undefined ? [] : [params]));
  await expect(answer).rejects.toMatchObject({
    code: -32602,
    message: expect.stringMatching(/^[a-zA-Z/]+ (has|names) no /),
  });
});

test("the server ends with a plain word when the editor no longer reads", async () => {
  const child = spawn(process.execPath, [join(build, "server.js"), "--stdio"], { stdio: "pipe" });
  let said = "";
  child.stderr.on("data", (text) => (said += text));
  const gone = new Promise((done) => child.once("close", done));
  child.stdout.destroy();
  const body = JSON.stringify({ jsonrpc: "2.0", id: 1, method: "initialize", params: { processId: null } });
  child.stdin.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
  expect(await gone).toBe(1);
  expect(said).toMatch(/^misce: the editor no longer reads what is sent \(.*\); the server ends\.\n$/);
});

test("every request that is answered has been asked with its shape checked", () => {
  const answered = Object.entries(methods).flatMap(([method, offer]) => ("answer" in offer ? [method] : []));
  expect(answered.filter((method) => !shapedMethods.has(method))).toEqual([]);
});
