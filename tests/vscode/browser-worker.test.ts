/**
 * The server for browsers as a worker of a real browser, spoken to by messages: it asks its client for the files, and its findings are
 * those of the library. Not part of `npm test`, since a fresh machine has no browser: `npm run test:worker` runs it (MISCE_BROWSER=1;
 * CHROMIUM names another browser than /usr/bin/chromium).
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Diagnostic, Hover } from "vscode-languageserver-protocol";
import { Library } from "../../language/library.ts";
import { LineIndex } from "../../language/syntax/lines.ts";

const root = join(import.meta.dirname, "../..");
const folder = join(root, "samples/library");
const base = "vscode-vfs://samples/library";
const faultyFile = "recipes/oxytocin-10-units.misce";

/** The sample library with one recipe made faulty, in which letters of two and four bytes stand before the fault. */
const texts = new Map(
  (readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => name.endsWith(".misce"))
    .sort()
    .map((name) => {
      const text = readFileSync(join(folder, name), "utf8");
      if (name !== faultyFile) return [name, text];
      const without = text.replace("    replace filter on syringe with needle\n", "    # µ é \u{1F489}\n");
      return [name, without.replace(/title(\s+)"/, 'title$1"µ é \u{1F489} ')];
    }),
);

/** What runs in the page: a client that answers the server's questions for files and keeps what it publishes. */
async function talk(page: Page, asked: { base: string; files: [string, string][]; open: string }) {
  return page.evaluate(async ({ base, files, open }) => {
    interface Message {
      id?: number;
      method?: string;
      params?: { uri: string; diagnostics: unknown[] };
      result?: unknown;
    }
    interface BrowserWorker {
      postMessage(message: unknown): void;
      terminate(): void;
      onmessage: (event: { data: Message }) => void;
      onerror: (event: { message: string }) => void;
    }
    const page = globalThis as unknown as { Worker: new (path: string) => BrowserWorker };
    const worker = new page.Worker("/server-web.js");
    const known = new Map(files.map(([name, bytes]) => [`${base}/${name}`, bytes]));
    const published: [string, unknown[]][] = [];
    const answers = new Map<number, (result: unknown) => void>();
    const failed = new Promise<never>((_, reject) => {
      worker.onerror = ({ message }) => reject(new Error(message));
    });
    const send = (message: object) => worker.postMessage({ jsonrpc: "2.0", ...message });
    worker.onmessage = ({ data: { id, method, params, result } }) => {
      if (method === "textDocument/publishDiagnostics") published.push([params!.uri, params!.diagnostics]);
      else if (method === "misce/listFiles") send({ id, result: [...known.keys()] });
      else if (method === "misce/readFile") send({ id, result: { bytes: known.get(params!.uri) } });
      else if (method !== undefined && id !== undefined) send({ id, result: null });
      else if (id !== undefined) answers.get(id)?.(result);
    };
    let next = 1;
    const ask = (method: string, params: unknown) => {
      const id = next++;
      const answer = new Promise<unknown>((resolve) => answers.set(id, resolve));
      send({ id, method, params });
      return Promise.race([answer, failed]);
    };
    await ask("initialize", {
      processId: null,
      rootUri: null,
      capabilities: {},
      workspaceFolders: [{ uri: base, name: "library" }],
      initializationOptions: { asOf: "2026-11-25" },
    });
    send({ method: "initialized", params: {} });
    const uri = `${base}/${open}`;
    const text = new TextDecoder().decode(Uint8Array.from(atob(known.get(uri)!), (c) => c.charCodeAt(0)));
    send({ method: "textDocument/didOpen", params: { textDocument: { uri, languageId: "misce", version: 1, text } } });
    const line = text.split("\n").findIndex((row) => row.includes("inject syringe"));
    const hover = await ask("textDocument/hover", { textDocument: { uri }, position: { line, character: 6 } });
    for (const until = Date.now() + 60_000; !published.some(([at]) => at === uri); ) {
      if (Date.now() > until) throw new Error("nothing was published");
      await Promise.race([new Promise((resolve) => setTimeout(resolve, 50)), failed]);
    }
    await ask("shutdown", undefined);
    worker.terminate();
    return { hover, published };
  }, asked);
}

describe.skipIf(!process.env.MISCE_BROWSER)("the server in a worker of a real browser", () => {
  const built = mkdtempSync(join(tmpdir(), "misce-worker-"));
  let browser: Browser;
  beforeAll(async () => {
    const build = await import(new URL("../../server/build.mjs", import.meta.url).href);
    await build.bundleWebServer(join(built, "server-web.js"));
    const executablePath = process.env.CHROMIUM ?? "/usr/bin/chromium";
    browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  }, 120_000);
  afterAll(async () => {
    await browser.close();
    rmSync(built, { recursive: true, force: true });
  });

  it("reads a library through its client and finds what the library finds", { timeout: 120_000 }, async () => {
    const page = await browser.newPage();
    await page.route("http://misce.test/**", (route) =>
      route.request().url().endsWith(".js")
        ? route.fulfill({ path: join(built, "server-web.js"), contentType: "text/javascript" })
        : route.fulfill({ body: "<!doctype html><title>worker</title>", contentType: "text/html" }),
    );
    await page.goto("http://misce.test/");
    const files = [...texts].map(([name, text]): [string, string] => [name, Buffer.from(text).toString("base64")]);
    const { hover, published } = await talk(page, { base, files, open: faultyFile });
    await page.close();

    const library = new Library({ asOf: "2026-11-25" });
    for (const [name, text] of texts) library.open(name, text);
    const lines = new LineIndex(texts.get(faultyFile)!);
    const wanted = library.findings(faultyFile).map((f) => ({ code: f.name, start: lines.place(f.span.start) }));
    expect(wanted.map(({ code }) => code)).toContain("filter-used-both-ways");
    const last = published.filter(([uri]) => uri === `${base}/${faultyFile}`).at(-1)![1] as Diagnostic[];
    expect(last.map(({ code, range }) => ({ code, start: range.start }))).toEqual(wanted);
    expect(((hover as Hover).contents as { value: string }).value).toMatch(/^\*\*inject\*\*/);
  });
});
