/**
 * Builds the extension into dist/vscode and packs it: `node client/vscode/build.mjs` gives dist/misce.vsix. Everything the
 * extension needs is bundled, server and command line included; nothing is fetched at run time.
 */
import { cpSync, mkdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { createVSIX } from "@vscode/vsce";
import { build } from "esbuild";
import { bundleServer, bundleWebServer } from "../../server/build.mjs";
import { bundle as bundleCommand } from "../cli/build.mjs";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const shipped = [
  "package.json",
  ".vscodeignore",
  "README.md",
  "language-configuration.json",
  "syntaxes/misce.tmLanguage.json",
  "snippets/misce.json",
  "icon/misce.png",
  "icon/file-light.svg",
  "icon/file-dark.svg",
  "walkthrough",
  "pictures",
];

/** @param folder where the unpacked extension is put; it is emptied before */
export async function buildExtension(folder = here("../../dist/vscode")) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(join(folder, "dist"), { recursive: true });
  for (const path of shipped) cpSync(here(path), join(folder, path), { recursive: true });
  cpSync(here("../../LICENSE"), join(folder, "LICENSE"));
  cpSync(here("../../CHANGELOG.md"), join(folder, "CHANGELOG.md"));
  const out = (name) => join(folder, "dist", name);
  const shared = { bundle: true, minify: true, logLevel: "warning", legalComments: "none" };
  const extension = { ...shared, format: "cjs", external: ["vscode"] };
  await Promise.all([
    build({
      ...extension,
      entryPoints: [here("src/extension.ts")],
      outfile: out("extension.js"),
      platform: "node",
      target: "node20",
    }),
    build({
      ...extension,
      entryPoints: [here("src/web.ts")],
      outfile: out("web.js"),
      platform: "browser",
      // "main" would give the Node half of packages that have two.
      mainFields: ["browser", "module", "main"],
      target: "es2022",
    }),
    build({
      ...shared,
      entryPoints: [here("page/page.ts")],
      outfile: out("page.js"),
      format: "iife",
      target: "es2022",
    }),
    build({ ...shared, entryPoints: [here("page/page.css")], outfile: out("page.css") }),
    bundleServer(out("server.js")),
    bundleWebServer(out("server-web.js")),
    bundleCommand(out("misce.js")),
  ]);
  // The sheet is printed from the browser; nothing here asks for a PDF.
  rmSync(out("sheet-pdf.js"), { force: true });
  // The bundles are CommonJS, whatever stands in a package.json above them.
  writeFileSync(out("package.json"), '{ "type": "commonjs" }\n');
  return folder;
}

/** @returns the path of the packed extension */
export async function packageExtension(file = here("../../dist/misce.vsix"), folder = here("../../dist/vscode")) {
  await buildExtension(folder);
  mkdirSync(dirname(file), { recursive: true });
  await createVSIX({
    cwd: folder,
    packagePath: file,
    dependencies: false,
    allowMissingRepository: true,
    allowStarActivation: false,
    // The pictures of the README lie in the package.
    rewriteRelativeLinks: false,
  });
  return file;
}

if (process.argv[1] && import.meta.url === pathToFileURL(resolve(process.argv[1])).href) {
  const file = await packageExtension();
  console.log(`${file}: ${Math.round(statSync(file).size / 1024)} kB`);
}
