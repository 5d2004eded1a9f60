/**
 * Bundles the command line into one file that Node 20 starts without anything beside it.
 * The one build script not in TypeScript, since Node 20 cannot run that. `npm run build` runs it; tests call `bundle`.
 *
 * CommonJS: Node's own modules are then loaded only when used, which saves some 20 ms a start, and the file runs wherever it is
 * copied. Within this repository, whose modules are ESM, a package.json beside the file says so.
 *
 * Bar codes and PDF are files of their own beside it (sheet-code.js, sheet-pdf.js): they are larger than all the rest, and only
 * `misce sheet` loads them.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import { keepCompiledCode, placeStarter } from "./code-cache.mjs";
import { lazyIsotopes } from "./lazy-isotopes.mjs";
import { lazyNodeModules } from "./lazy-node-modules.mjs";

/** Modules that become files of their own. */
const beside = /^\.\/sheet-(code|pdf)\.ts$/;

/**
 * What is new is kept in a space that stays as small as it is when the program begins, in each thread. Almost all of it is let go of at
 * once, so that a larger space saves no time, and takes tens of megabytes.
 */
const smallNewSpace = "--semi-space-growth-factor=1";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/** `engine`: another module in the place of engine.ts, for tests of the command alone. */
export async function bundle(outfile, engine = here("engine.ts")) {
  await build({
    entryPoints: [here("main.ts")],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    minify: true,
    // Node refuses import() in a program that it takes up from compiled code; the parts beside it are required instead.
    supported: { "dynamic-import": false },
    banner: { js: "#!/usr/bin/env node" },
    logLevel: "warning",
    plugins: [
      lazyIsotopes,
      lazyNodeModules,
      { name: "engine", setup: (b) => b.onResolve({ filter: /^\.\/engine\.ts$/ }, () => ({ path: engine })) },
      {
        name: "beside",
        setup: (b) => b.onResolve({ filter: beside }, (at) => ({ path: at.path.replace(/ts$/, "js"), external: true })),
      },
    ],
  });
  await build({
    entryPoints: [here("sheet-code.ts"), here("sheet-pdf.ts")],
    outdir: dirname(outfile),
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    minify: true,
    logLevel: "error",
  });
  writeFileSync(join(dirname(outfile), "package.json"), '{ "type": "commonjs" }\n');
}

/** The program as it is installed: with the code that was compiled in runs which use most of it. */
export async function bundleCompiled(outfile) {
  await bundle(outfile);
  // Drawing a bar code compiles a good part of what draws it.
  placeStarter(join(dirname(outfile), "sheet-code.js"));
  const sample = here("../../samples/library/recipes/magnesium-4g.misce");
  const ranged = here("../../samples/library/recipes/vancomycin-loading.misce");
  const day = ["--as-of", "2026-11-25"];
  const folder = mkdtempSync(join(tmpdir(), "misce-build-"));
  try {
    const edited = join(folder, "edited.misce");
    writeFileSync(edited, readFileSync(ranged, "utf8").replace(/title +"/, "$&Edited "));
    const runs = [
      ["check", ...day, "--no-cache", sample],
      ["sheet", "--at", "2026-11-25T09:30", "--number", "KQ-0417", "--out", join(folder, "sheet.html"), sample],
      ["compare", ...day, "--level", "verdict", ranged, edited],
    ];
    keepCompiledCode(outfile, runs, [smallNewSpace]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(resolve(process.argv[1])).href) {
  await bundleCompiled(here("../../dist/misce.js"));
}
