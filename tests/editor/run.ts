/** Installs, packs, starts, walks through the scenario, keeps the screenshots in dist/editor. Exit status 1 when anything fails. */
import { existsSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { startCodeServer } from "./code-server.ts";
import { installEditor } from "./install.ts";
import { firstFile, prepare, scenario } from "./scenario.ts";
import { Workbench } from "./workbench.ts";

const root = resolve(".");
const artefacts = join(root, "dist/editor");
const began = Date.now();
const seconds = (since: number) => `${((Date.now() - since) / 1000).toFixed(1)} s`;

if (!existsSync(join(root, "client/vscode/build.mjs"))) throw new Error("Run this in the repository's own folder.");
mkdirSync(artefacts, { recursive: true });
rmSync(join(artefacts, "fault.png"), { force: true });
const editor = installEditor();
console.log(`editor there after ${seconds(began)}`);
const { packageExtension } = await import(pathToFileURL(join(root, "client/vscode/build.mjs")).href);
const vsix: string = await packageExtension();
console.log(`extension packed after ${seconds(began)}`);
const server = await startCodeServer(editor, vsix, join(root, "samples/library"));
prepare(server.workspace);
const browser = await chromium.launch({
  executablePath: editor.chromium,
  args: ["--no-sandbox", "--disable-dev-shm-usage"],
});
let failed = 0;
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 860 }, deviceScaleFactor: 1 });
  const asked: string[] = [];
  // Nothing may be fetched from anywhere but this machine.
  await page.route("**/*", (route) => {
    const { hostname, protocol } = new URL(route.request().url());
    const here = hostname === "127.0.0.1" || hostname === "localhost" || !/^https?:$/.test(protocol);
    if (here || hostname.endsWith(".vscode-cdn.net")) return route.continue();
    asked.push(hostname);
    return route.abort();
  });
  const first = `vscode-remote://${new URL(server.url).host}${join(server.workspace, firstFile)}`;
  const payload = encodeURIComponent(JSON.stringify([["openFile", first]]));
  await page.goto(`${server.url}?folder=${encodeURIComponent(server.workspace)}&payload=${payload}`, {
    waitUntil: "commit",
    timeout: 120_000,
  });
  const bench = new Workbench(page, server.workspace, artefacts);
  await bench.ready();
  await bench.opened(basename(firstFile));
  console.log(`workbench there after ${seconds(began)}`);
  // For work on one part: `node tests/editor/run.mjs 1 8` runs those alone.
  const wanted = process.argv.slice(2).map(Number);
  for (const { name, run } of scenario.filter((_, i) => wanted.length === 0 || wanted.includes(i + 1))) {
    const since = Date.now();
    try {
      await run(bench);
      console.log(`  ok    ${name} (${seconds(since)})`);
    } catch (error) {
      failed++;
      console.log(`  FAIL  ${name} (${seconds(since)})\n${error instanceof Error ? error.message : error}`);
      await bench.shot(`fault-${failed}`);
      break; // what follows stands on what went before
    }
  }
  if (asked.length > 0) console.log(`kept from the network: ${[...new Set(asked)].join(", ")}`);
} finally {
  await browser.close();
  writeFileSync(join(artefacts, "code-server.log"), server.log());
  server.stop();
}
console.log(`${failed === 0 ? "all" : "not all"} of ${scenario.length} parts done after ${seconds(began)}`);
process.exitCode = failed === 0 ? 0 : 1;
