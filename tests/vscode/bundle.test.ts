/**
 * The built extension: the browser's half needs nothing of Node, and its server, run as a worker would run it, reads a library
 * through the client and publishes the same findings as the command line's own library.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { isBuiltin } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createContext, runInContext } from "node:vm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkArguments } from "../../client/vscode/src/check-arguments.ts";
import { Library } from "../../language/library.ts";

const root = join(import.meta.dirname, "../..");
const built = mkdtempSync(join(tmpdir(), "misce-vsix-"));
const folder = join(root, "samples/library");

beforeAll(async () => {
  const script = join(root, "client/vscode/build.mjs");
  const { buildExtension } = (await import(/* @vite-ignore */ script)) as {
    buildExtension(f: string): Promise<string>;
  };
  await buildExtension(built);
});
afterAll(() => rmSync(built, { recursive: true, force: true }));

const code = (name: string) => readFileSync(join(built, "dist", name), "utf8");

describe("files", () => {
  it("the two halves of the extension ask for nothing but the editor's own module", () => {
    const asked = (text: string) => new Set([...text.matchAll(/(?<![.\w])require\("([^"]+)"\)/g)].map((m) => m[1]!));
    expect([...asked(code("web.js"))]).toEqual(["vscode"]);
    expect([...asked(code("server-web.js"))]).toEqual([]);
    const own = [...asked(code("extension.js"))].filter((name) => name !== "vscode");
    expect(own.filter((name) => !isBuiltin(name))).toEqual([]);
  });

  it("all that the manifest starts is there, and the whole stays small", () => {
    const manifest = JSON.parse(readFileSync(join(built, "package.json"), "utf8"));
    for (const entry of [manifest.main, manifest.browser])
      expect(statSync(join(built, entry)).size).toBeGreaterThan(1000);
    const total = readdirSync(join(built, "dist")).reduce(
      (sum, name) => sum + statSync(join(built, "dist", name)).size,
      0,
    );
    expect(total).toBeLessThan(8 * 1024 * 1024);
  });
});

it("the problem matcher reads every finding off what the task prints", () => {
  const { contributes } = JSON.parse(readFileSync(join(built, "package.json"), "utf8"));
  const patterns = contributes.problemMatchers[0].pattern as Record<string, string | number>[];
  const task = checkArguments(
    { type: "misce", paths: ["samples/faulty/filter-used-both-ways"], asOf: "2026-11-25" },
    "",
  );
  const run = spawnSync(process.execPath, [join(built, "dist/misce.js"), ...task], { cwd: root, encoding: "utf8" });
  expect(run.status).toBe(1);
  const lines = run.stdout.split("\n");
  const first = new RegExp(patterns[0]!.regexp as string);
  const second = new RegExp(patterns[1]!.regexp as string);
  const matched = lines.flatMap((line, i) => {
    const head = first.exec(line);
    const place = head && second.exec(lines[i + 1] ?? "");
    return head && place ? [[head[patterns[0]!.severity as number], ...place.slice(1)]] : [];
  });
  const counted = /(\d+) errors?/.exec(lines.find((l) => l.includes("checked as of"))!)![1];
  expect(matched).toHaveLength(Number(counted));
  expect(matched[0]!.slice(0, 2)).toEqual(["error", "samples/faulty/filter-used-both-ways/library.misce"]);
  // The author's line, found by its words.
  const source = readFileSync(join(root, matched[0]![1]!), "utf8").split("\n");
  expect(source[Number(matched[0]![2]) - 1]!.slice(Number(matched[0]![3]) - 1)).toBe("syringe into bag");
});

interface Message {
  id?: number;
  method?: string;
  params?: { uri?: string; diagnostics?: { code: string }[] };
}

/** A worker's global scope around the server: messages in by `onmessage`, out by `postMessage`. */
class PaperWorker {
  readonly published = new Map<string, string[]>();
  private readonly scope: { onmessage?: (event: { data: unknown }) => void };

  constructor(source: string) {
    const scope = {
      // For "error" alone; messages come by `onmessage`.
      addEventListener: () => {},
      postMessage: (message: Message) => this.heard(structuredClone(message)),
      setTimeout,
      clearTimeout,
      queueMicrotask,
      structuredClone,
      performance,
      TextDecoder,
      TextEncoder,
      URL,
      atob,
      console,
    };
    this.scope = scope as typeof this.scope;
    runInContext(source, createContext(scope));
  }

  send(message: object): void {
    this.scope.onmessage!({ data: { jsonrpc: "2.0", ...message } });
  }

  private heard({ id, method, params }: Message): void {
    if (method === "textDocument/publishDiagnostics") {
      this.published.set(
        params!.uri!,
        params!.diagnostics!.map((d) => d.code),
      );
    } else if (method === "misce/listFiles") this.send({ id, result: sampleFiles().map(uriOf) });
    else if (method === "misce/readFile")
      this.send({ id, result: { bytes: readFileSync(pathOf(params!.uri!)).toString("base64") } });
    else if (method !== undefined && id !== undefined) this.send({ id, result: null });
    else if (id === 1) this.send({ method: "initialized", params: {} });
  }
}

function sampleFiles(): string[] {
  return (readdirSync(folder, { recursive: true }) as string[]).filter((name) => name.endsWith(".misce")).sort();
}

const uriOf = (name: string) => `vscode-vfs://samples/library/${name}`;
const pathOf = (uri: string) => join(folder, uri.slice("vscode-vfs://samples/library/".length));

it("the server for browsers finds what the library finds", { timeout: 120_000 }, async () => {
  const file = "recipes/oxytocin-10-units.misce";
  const faulty = readFileSync(join(folder, file), "utf8").replace("    replace filter on syringe with needle\n", "");
  const library = new Library({ asOf: "2026-11-25" });
  for (const name of sampleFiles())
    library.open(name, name === file ? faulty : readFileSync(join(folder, name), "utf8"));
  const wanted = library.findings(file).map((f) => f.name);
  expect(wanted).toContain("filter-used-both-ways");

  const worker = new PaperWorker(code("server-web.js"));
  const workspaceFolders = [{ uri: "vscode-vfs://samples/library", name: "library" }];
  const params = {
    processId: null,
    rootUri: null,
    capabilities: {},
    workspaceFolders,
    initializationOptions: { asOf: "2026-11-25" },
  };
  worker.send({ id: 1, method: "initialize", params });
  const textDocument = { uri: uriOf(file), languageId: "misce", version: 1, text: faulty };
  worker.send({ method: "textDocument/didOpen", params: { textDocument } });
  await expect.poll(() => worker.published.get(uriOf(file)), { timeout: 100_000 }).toEqual(wanted);
});
