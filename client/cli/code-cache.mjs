/**
 * Lets a bundle start faster: what V8 compiled of it in a first run is kept beside it, and later starts take it up. The bundle's own
 * file becomes a short starter. Program and compiled code bear the hash of the program in their names, so that code can never be taken
 * up for another text; V8 itself refuses what another version of it wrote, and the program is then compiled as usual.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/**
 * @param outfile the bundle; it stays the file to start
 * @param runs arguments of runs that use most of the program; each takes up what the ones before it compiled, and adds its own
 * @param flags of V8 that the starter sets
 */
export function keepCompiledCode(outfile, runs, flags = []) {
  placeStarter(outfile, flags);
  for (const words of runs) {
    const run = spawnSync(process.execPath, [outfile, ...words], {
      env: { ...process.env, ...keeping },
      encoding: "utf8",
      timeout: 60_000,
    });
    if (run.status !== 0)
      throw new Error(`${basename(outfile)} ${words.join(" ")} ended with ${run.status}: ${run.stderr}`);
  }
}

/** Environment of a run that keeps at its end what was compiled in it. */
export const keeping = { MISCE_KEEP_COMPILED: "1" };

/**
 * Puts the starter in the place of the bundle; a run in the environment `keeping` then makes the compiled code.
 *
 * @param flags of V8 that the starter sets first of all: it refuses code that was compiled under others
 */
export function placeStarter(outfile, flags = []) {
  const folder = dirname(outfile);
  const stem = basename(outfile, ".js");
  for (const name of readdirSync(folder)) {
    if (name.startsWith(`${stem}-program-`)) rmSync(join(folder, name));
  }
  const text = inAscii(readFileSync(outfile, "utf8"));
  const hash = createHash("sha256").update(text).digest("hex").slice(0, 16);
  const program = `${stem}-program-${hash}.js`;
  writeFileSync(join(folder, program), text);
  writeFileSync(outfile, starter(program, flags));
}

/**
 * Bytes are read faster than UTF-8, and V8 holds such a text in half the memory. esbuild has written all other characters as escapes,
 * save those in patterns, where the same escape means the same.
 */
function inAscii(text) {
  return text.replace(/[^\0-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

function starter(program, flags) {
  const set = flags.map((flag) => `require("node:v8").setFlagsFromString(${JSON.stringify(flag)});\n`).join("");
  return `#!/usr/bin/env node
"use strict";
// Starts ${program} beside it, with the code that was compiled when it was built.
const { readFileSync, writeFileSync } = require("node:fs");
const { join } = require("node:path");
const { Script } = require("node:vm");
${set}const path = join(__dirname, ${JSON.stringify(program)});
let compiled;
try {
  compiled = readFileSync(path + ".compiled");
} catch {}
if (!compiled && !process.env.MISCE_KEEP_COMPILED) require(path);
else {
  // Nothing but ASCII, and read faster so.
  const text = readFileSync(path, "latin1").replace(/^#!.*/, "");
  const words = "(function (exports, require, module, __filename, __dirname) {" + text + "\\n})";
  const script = new Script(words, { filename: path, cachedData: compiled });
  if (process.env.MISCE_KEEP_COMPILED) {
    process.on("exit", () => writeFileSync(path + ".compiled", script.createCachedData()));
  }
  script.runInThisContext()(exports, require, module, __filename, __dirname);
}
`;
}
