/** A plain editor for tests: speaks the protocol to a server process or to one in this process, and keeps what it is sent. */
import { type ChildProcess, spawn } from "node:child_process";
import { PassThrough } from "node:stream";
import { pathToFileURL } from "node:url";
import { createConnection } from "vscode-languageserver/node";
import {
  type ClientCapabilities,
  createMessageConnection,
  type Diagnostic,
  type InitializeResult,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";
import type { Host } from "../../server/host.ts";
import { nodeHost } from "../../server/node-host.ts";
import type { Serving } from "../../server/serving.ts";
import { start } from "../../server/start.ts";

export interface Editor {
  connection: MessageConnection;
  result: InitializeResult;
  /** The last findings of each URI. */
  shown: Map<string, PublishDiagnosticsParams>;
  /** Every message received, for validation. */
  heard: { method: string; params: unknown }[];
  /** When the last findings came, on the clock of `performance.now`. */
  readonly lastHeard: number;
  /** Present where the server runs in this process. */
  serving: Serving | undefined;
  child: ChildProcess | undefined;
  open(path: string, text: string, version?: number): Promise<void>;
  change(path: string, version: number, text: string): Promise<void>;
  ask<R>(method: string, params: unknown): Promise<R>;
  tell(method: string, params: unknown): Promise<void>;
  /** Resolves when the findings of a path are next sent. */
  next(path: string): Promise<Diagnostic[]>;
  quit(): Promise<void>;
}

export const fullAbilities: ClientCapabilities = {
  general: { positionEncodings: ["utf-16"] },
  workspace: {
    workspaceFolders: true,
    configuration: false,
    applyEdit: true,
    workspaceEdit: { documentChanges: true },
    didChangeWatchedFiles: { dynamicRegistration: true },
  },
  textDocument: {
    publishDiagnostics: {
      relatedInformation: true,
      versionSupport: true,
      tagSupport: { valueSet: [1] },
      codeDescriptionSupport: true,
    },
    completion: { completionItem: { snippetSupport: true } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    codeAction: {
      resolveSupport: { properties: ["edit"] },
      dataSupport: true,
      codeActionLiteralSupport: { codeActionKind: { valueSet: [] } },
    },
    rename: { prepareSupport: true },
  },
};

export interface EditorOptions {
  folders: string[];
  /** A bundle to start as a process; undefined runs the server here. */
  bundle?: string;
  /** Words behind the bundle's name. */
  words?: string[];
  abilities?: ClientCapabilities;
  options?: unknown;
  host?: Host;
}

export function uriOf(path: string): string {
  return pathToFileURL(path).href;
}

export async function editor({ folders, bundle, words, abilities, options, host }: EditorOptions): Promise<Editor> {
  let child: ChildProcess | undefined;
  let serving: Serving | undefined;
  let connection: MessageConnection;
  if (bundle) {
    child = spawn(
      process.execPath,
      [...(process.env.MISCE_NODE_WORDS?.split(" ") ?? []), bundle, ...(words ?? ["--stdio"])],
      { stdio: ["pipe", "pipe", "inherit"] },
    );
    connection = createMessageConnection(new StreamMessageReader(child.stdout!), new StreamMessageWriter(child.stdin!));
  } else {
    const up = new PassThrough();
    const down = new PassThrough();
    serving = start(createConnection(new StreamMessageReader(up), new StreamMessageWriter(down)), host ?? nodeHost);
    connection = createMessageConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  }
  const shown = new Map<string, PublishDiagnosticsParams>();
  const heard: Editor["heard"] = [];
  let lastHeard = 0;
  const waiting = new Map<string, ((d: Diagnostic[]) => void)[]>();
  connection.onNotification((method, params) => {
    heard.push({ method, params });
    if (method !== "textDocument/publishDiagnostics") return;
    const sent = params as unknown as PublishDiagnosticsParams;
    lastHeard = performance.now();
    shown.set(sent.uri, sent);
    for (const tell of waiting.get(sent.uri)?.splice(0) ?? []) tell(sent.diagnostics);
  });
  connection.onRequest((method, params) => {
    heard.push({ method, params });
    return method === "workspace/applyEdit" ? { applied: true } : null;
  });
  connection.listen();
  const asked = connection.sendRequest<InitializeResult>("initialize", {
    processId: process.pid,
    rootUri: null,
    capabilities: abilities ?? fullAbilities,
    workspaceFolders: folders.map((f) => ({ uri: uriOf(f), name: f })),
    ...(options === undefined ? {} : { initializationOptions: options }),
  });
  const result = await (child ? Promise.race([asked, endOf(child)]) : asked);
  const tell = (method: string, params: unknown) => connection.sendNotification(method, params as never);
  await tell("initialized", {});
  return {
    connection,
    result,
    shown,
    heard,
    get lastHeard() {
      return lastHeard;
    },
    serving,
    child,
    tell,
    ask: (method, params) => connection.sendRequest(method, params as never),
    open: (path, text, version = 1) =>
      tell("textDocument/didOpen", { textDocument: { uri: uriOf(path), languageId: "misce", version, text } }),
    change: (path, version, text) =>
      tell("textDocument/didChange", { textDocument: { uri: uriOf(path), version }, contentChanges: [{ text }] }),
    next: (path) =>
      new Promise((resolve) => {
        const uri = uriOf(path);
        waiting.set(uri, [...(waiting.get(uri) ?? []), resolve]);
      }),
    async quit() {
      await connection.sendRequest("shutdown");
      if (child) {
        const gone = new Promise((resolve) => child.once("exit", resolve));
        await connection.sendNotification("exit");
        await gone;
      }
      connection.dispose();
    },
  };
}

/** Fails as soon as the server ends: waited for, it would use up the whole time of a test. */
function endOf(child: ChildProcess): Promise<never> {
  const end = new Promise<never>((_, reject) => {
    child.once("exit", (status) => reject(new Error(`The server ended with status ${status} before it answered.`)));
  });
  end.catch(() => {}); // in the end every server ends
  return end;
}
