/**
 * Messages held against the protocol's own types (vscode-languageserver-protocol, which is made from the official meta model): each is
 * written down as a literal of its type and the compiler reads them all. A literal may have no member that its type does not know.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import * as protocol from "vscode-languageserver-protocol";

export interface Message {
  method: string;
  part: "result" | "params" | "note";
  value: unknown;
}

/** Methods by the name of their exported type. */
function typeNames(): Map<string, string> {
  const names = new Map<string, string>();
  for (const [name, value] of Object.entries(
    protocol as unknown as Record<string, { method?: unknown; type?: unknown }>,
  )) {
    if (/(Request|Notification)$/.test(name) && typeof value?.method === "string" && value.type)
      names.set(value.method, name);
  }
  names.set("textDocument/semanticTokens/full", "SemanticTokensRequest");
  names.set("textDocument/semanticTokens/full/delta", "SemanticTokensDeltaRequest");
  names.set("textDocument/semanticTokens/range", "SemanticTokensRangeRequest");
  return names;
}

const head = `import type * as p from "vscode-languageserver-protocol";
type params<T> = T extends p.ProtocolRequestType<infer P, any, any, any, any> ? P : T extends p.RequestType<infer P, any, any> ? P : never;
type result<T> = T extends p.ProtocolRequestType0<infer R, any, any, any> ? R : T extends p.ProtocolRequestType<any, infer R, any, any, any> ? R : T extends p.RequestType<any, infer R, any> ? R : never;
type note<T> = T extends p.ProtocolNotificationType<infer P, any> ? P : T extends p.NotificationType<infer P> ? P : never;
`;

/** @returns what does not fit, with the message's beginning; methods outside the protocol are left to the caller */
export function unlikeTheTypes(messages: readonly Message[]): string[] {
  const names = typeNames();
  const lines = new Map<string, string>();
  for (const { method, part, value } of messages) {
    const name = names.get(method);
    if (!name || method === "$/progress") continue;
    const text = JSON.stringify(value) ?? "undefined";
    lines.set(`${part}<typeof p.${name}.type> = ${text}`, `${method} ${part} ${text.slice(0, 300)}`);
  }
  const folder = mkdtempSync(join(tmpdir(), "misce-types-"));
  try {
    mkdirSync(join(folder, "node_modules"));
    for (const part of ["vscode-languageserver-protocol", "vscode-languageserver-types", "vscode-jsonrpc"])
      symlinkSync(resolve("node_modules", part), join(folder, "node_modules", part));
    const body = [...lines.keys()].map((line, i) => `export const m${i}: ${line};`);
    writeFileSync(join(folder, "messages.ts"), head + body.join("\n"));
    const compilerOptions = {
      strict: true,
      exactOptionalPropertyTypes: true,
      noEmit: true,
      module: "NodeNext",
      moduleResolution: "NodeNext",
      target: "ES2022",
      skipLibCheck: true,
      types: [],
      noErrorTruncation: true,
    };
    writeFileSync(join(folder, "tsconfig.json"), JSON.stringify({ compilerOptions, files: ["messages.ts"] }));
    const told = spawnSync(process.execPath, [compiler(), "-p", folder, "--pretty", "false"], { encoding: "utf8" });
    if (told.status === 0) return [];
    const first = head.split("\n").length;
    const which = [...lines.values()];
    return told.stdout
      .split(/\n(?=\S)/)
      .filter((text) => text.trim() !== "")
      .map((text) => `${which[Number(/messages\.ts\((\d+),/.exec(text)?.[1]) - first] ?? ""}\n  ${text.trim()}`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function compiler(): string {
  const manifest = JSON.parse(readFileSync("node_modules/typescript/package.json", "utf8")) as { bin: { tsc: string } };
  return resolve("node_modules/typescript", manifest.bin.tsc);
}
