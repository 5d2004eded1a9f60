/**
 * Bundles the server: dist/server.js for a process, dist/server-web.js for a worker in a browser. CommonJS and minified for the
 * process, as the command line is; one closed script for the worker.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import { placeStarter } from "../client/cli/code-cache.mjs";
import { lazyIsotopes } from "../client/cli/lazy-isotopes.mjs";
import { firstSession } from "./first-session.mjs";

/** As node-memory.ts sets them. */
export const memoryFlags = [
  "--heap-growing-percent=28",
  "--semi-space-growth-factor=1",
  "--max-inlined-bytecode-size=120",
  "--max-inlined-bytecode-size-cumulative=150",
  "--expose-gc",
];

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

export async function bundleServer(outfile = here("../dist/server.js")) {
  mkdirSync(dirname(outfile), { recursive: true });
  await build({
    entryPoints: [here("node.ts")],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    minify: true,
    keepNames: false,
    plugins: [lazyIsotopes],
    logLevel: "warning",
  });
  writeFileSync(join(dirname(outfile), "package.json"), '{ "type": "commonjs" }\n');
}

/** Lets a bundled server start from compiled code, which is made by a first session with it. */
export async function compileServer(outfile) {
  placeStarter(outfile, memoryFlags);
  await firstSession(outfile, here("../samples/library"));
}

export async function bundleWebServer(outfile = here("../dist/server-web.js")) {
  await build({
    entryPoints: [here("web.ts")],
    outfile,
    bundle: true,
    platform: "browser",
    target: "es2022",
    format: "iife",
    minify: true,
    plugins: [lazyIsotopes],
    logLevel: "warning",
  });
}

if (process.argv[1] && import.meta.url === pathToFileURL(resolve(process.argv[1])).href) {
  const outfile = here("../dist/server.js");
  await bundleServer(outfile);
  await compileServer(outfile);
  await bundleWebServer();
}
