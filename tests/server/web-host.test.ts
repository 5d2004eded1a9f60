/** The server without a disk: its files come through the editor, late, in any order, or not at all, and nothing stale stays. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { PassThrough } from "node:stream";
import { afterEach, expect, test, vi } from "vitest";
import { createConnection } from "vscode-languageserver/node";
import {
  createMessageConnection,
  type Diagnostic,
  FileChangeType,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import type { Serving } from "../../server/serving.ts";
import { start } from "../../server/start.ts";
import { webHost } from "../../server/web-host.ts";
import {
  type ListFilesParams,
  listFilesRequest,
  type ReadFileParams,
  readFileRequest,
} from "../../shared/web-files.ts";
import { lineOf } from "./fresh.ts";

const library = "samples/library";
const base = "vscode-vfs://host/repository%20of%20recipes";
const recipe = `${base}/recipes/magnesium-4g.misce`;
const vials = `${base}/stock/vials.misce`;

/** A file system behind an editor: what it holds, and how it answers. */
class FileSystem {
  readonly files = new Map<string, Buffer>();
  /** Answers a question of the server in its own way. */
  answering: (uri: string, usual: () => { bytes: string } | null) => unknown = (_, usual) => usual();

  constructor() {
    const names = readdirSync(library, { recursive: true }) as string[];
    for (const name of names.filter((n) => n.endsWith(".misce") && (!/recipes\//.test(n) || /magnesium-4g/.test(n))))
      this.files.set(`${base}/${name}`, readFileSync(join(library, name)));
  }

  read(uri: string): unknown {
    return this.answering(uri, () => {
      const bytes = this.files.get(uri);
      return bytes ? { bytes: bytes.toString("base64") } : null;
    });
  }

  list({ folder, deep }: ListFilesParams): string[] {
    const inside = [...this.files.keys()].filter((uri) => uri.startsWith(`${folder}/`));
    return deep ? inside : inside.filter((uri) => !uri.slice(folder.length + 1).includes("/"));
  }

  text(uri: string): string {
    return this.files.get(uri)!.toString();
  }

  write(uri: string, text: string): void {
    this.files.set(uri, Buffer.from(text));
  }
}

let open: MessageConnection | undefined;
afterEach(() => {
  vi.useRealTimers();
  open?.dispose();
});

async function begun(disk: FileSystem) {
  const [up, down] = [new PassThrough(), new PassThrough()];
  const own = createConnection(new StreamMessageReader(up), new StreamMessageWriter(down));
  const serving: Serving = start(own, webHost(own));
  const connection = createMessageConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  open = connection;
  const shown = new Map<string, Diagnostic[]>();
  connection.onNotification("textDocument/publishDiagnostics", ({ uri, diagnostics }: PublishDiagnosticsParams) => {
    shown.set(uri, diagnostics);
  });
  connection.onRequest(listFilesRequest, (params: ListFilesParams) => disk.list(params));
  connection.onRequest(readFileRequest, ({ uri }: ReadFileParams) => disk.read(uri));
  connection.listen();
  const params = {
    processId: null,
    rootUri: null,
    capabilities: {},
    workspaceFolders: [{ uri: base, name: "library" }],
    initializationOptions: { asOf: "2026-11-25" },
  };
  await connection.sendRequest("initialize", params);
  await connection.sendNotification("initialized", {});
  const settled = async () => {
    for (let round = 0; round < 6; round++) {
      await connection.sendRequest("workspace/symbol", { query: "no such name" });
      await serving.publisher.settled();
    }
  };
  const tell = (method: string, told: object) => connection.sendNotification(method, told);
  const all = () =>
    [...shown].flatMap(([uri, found]) => found.map((d) => `${uri.slice(base.length)} ${lineOf(d)}`)).sort();
  return { tell, settled, all, codes: (uri: string) => (shown.get(uri) ?? []).map((d) => d.code) };
}

const changed = (...uris: string[]) => ({ changes: uris.map((uri) => ({ uri, type: FileChangeType.Changed })) });
const opened = (uri: string, text: string) => ({ textDocument: { uri, languageId: "misce", version: 1, text } });

test("a library is read through the editor, with one spelling for each address", async () => {
  const disk = new FileSystem();
  const s = await begun(disk);
  await s.settled();
  expect(s.all()).toEqual([]);
  // Editors differ in what they escape: the same file under another spelling is no second one.
  await s.tell("textDocument/didOpen", opened(recipe.replace("%20of%20", " of%20"), disk.text(recipe)));
  await s.settled();
  expect(s.all()).toEqual([]);
});

test("one file that may not be read is told, and the others are checked", async () => {
  const disk = new FileSystem();
  disk.write(recipe, disk.text(recipe).replace("disinfect bag\n", "\n"));
  const closed = `${base}/drugs/oxytocin.misce`;
  disk.answering = (uri, usual) => {
    if (uri === closed) throw new Error("no permission");
    return usual();
  };
  const s = await begun(disk);
  await s.settled();
  expect(s.codes(closed)).toEqual(["file-not-read"]);
  expect(s.codes(recipe).length).toBeGreaterThan(0);
  disk.answering = (_, usual) => usual();
  await s.tell("workspace/didChangeWatchedFiles", changed(closed));
  await s.settled();
  expect(s.codes(closed)).toEqual([]);
});

test("one file that is never answered for is told after a while", async () => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const disk = new FileSystem();
  const asked = new Set<string>();
  disk.answering = (uri, usual) => (asked.add(uri) && uri === vials ? new Promise(() => {}) : usual());
  const s = await begun(disk);
  const turns = async (wanted: () => boolean) => {
    for (let i = 0; i < 50 || !wanted(); i++) await new Promise((resolve) => setImmediate(resolve));
  };
  await turns(() => asked.size >= disk.files.size);
  await turns(() => true);
  await vi.advanceTimersByTimeAsync(31_000);
  vi.useRealTimers();
  await s.settled();
  expect(s.codes(vials)).toEqual(["file-not-read"]);
  expect(s.codes(recipe)).toContain("unknown-name");
});

test("a text closed and opened again before the file was read stays as it is open", async () => {
  const disk = new FileSystem();
  const s = await begun(disk);
  const faulty = disk.text(recipe).replace("disinfect bag\n", "\n");
  await s.tell("textDocument/didOpen", opened(recipe, disk.text(recipe)));
  await s.settled();
  let answer: () => void = () => {};
  disk.answering = (_, usual) => new Promise((resolve) => (answer = () => resolve(usual())));
  await s.tell("textDocument/didClose", { textDocument: { uri: recipe } });
  await s.tell("textDocument/didOpen", opened(recipe, faulty));
  await expect.poll(() => s.codes(recipe).length, { timeout: 60_000 }).toBeGreaterThan(0);
  answer();
  disk.answering = (_, usual) => usual();
  await s.settled();
  expect(s.codes(recipe).length).toBeGreaterThan(0);
  await s.tell("textDocument/didClose", { textDocument: { uri: recipe } });
  await s.settled();
  expect(s.codes(recipe)).toEqual([]);
});

test("an old text that comes late does not stand in the place of a new one", async () => {
  const disk = new FileSystem();
  const s = await begun(disk);
  await s.settled();
  const good = disk.text(vials);
  disk.write(vials, good.replace("magnesium-vial-10", "magnesium-vial-11"));
  const waiting: (() => void)[] = [];
  // The first question is answered last, with what the file held when it was asked.
  disk.answering = (_, usual) => {
    const then = usual();
    return waiting.length === 0 ? new Promise((resolve) => waiting.push(() => resolve(then))) : then;
  };
  await s.tell("workspace/didChangeWatchedFiles", changed(vials));
  await expect.poll(() => waiting.length, { timeout: 60_000 }).toBe(1);
  disk.write(vials, good);
  await s.tell("workspace/didChangeWatchedFiles", changed(vials));
  for (let i = 0; i < 20; i++) await new Promise((resolve) => setImmediate(resolve));
  waiting[0]!();
  await s.settled();
  expect(s.all()).toEqual([]);
});
