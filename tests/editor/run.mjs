/**
 * `npm run test:editor`: drives the packaged extension in a real VS Code in headless Chromium. This file only makes the rest
 * runnable, since Node 20 does not run TypeScript.
 */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = join(import.meta.dirname, "../..");
const outfile = join(root, "dist/editor/run.mjs");
await build({
  entryPoints: [join(import.meta.dirname, "run.ts")],
  outfile,
  bundle: true,
  platform: "node",
  target: "node20",
  format: "esm",
  packages: "external",
  external: ["*.mjs"],
  logLevel: "warning",
});
await import(pathToFileURL(outfile).href);
