/** `misce server`, as an editor starts it that knows only the command line. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { expect, test } from "vitest";
import { editor } from "./client.ts";

test("the command line starts the server that is built beside it", async () => {
  const folder = mkdtempSync(join(tmpdir(), "misce-command-"));
  try {
    const { bundle } = await import(new URL("../../client/cli/build.mjs", import.meta.url).href);
    const { bundleServer } = await import(new URL("../../server/build.mjs", import.meta.url).href);
    await bundle(join(folder, "misce.js"));
    await bundleServer(join(folder, "server.js"));
    const e = await editor({
      folders: [resolve("samples/library")],
      bundle: join(folder, "misce.js"),
      words: ["server"],
    });
    expect(e.result.serverInfo?.name).toBe("misce");
    expect(await e.ask("workspace/symbol", { query: "magnesium-4g" })).toHaveLength(1);
    await e.quit();
    expect(e.child!.exitCode).toBe(0);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

test("the server starts from compiled code that V8 takes up, and answers", async () => {
  const folder = mkdtempSync(join(tmpdir(), "misce-compiled-server-"));
  try {
    const build = await import(new URL("../../server/build.mjs", import.meta.url).href);
    const server = join(folder, "server.js");
    await build.bundleServer(server);
    await build.compileServer(server);
    const program = join(folder, readdirSync(folder).find((name) => /^server-program-.*\.js$/.test(name))!);
    // As the starter does it: code compiled under other flags, or for another text, would be refused in silence.
    const script = `
      for (const flag of ${JSON.stringify(build.memoryFlags)}) require("node:v8").setFlagsFromString(flag);
      const { readFileSync } = require("node:fs"), { Script } = require("node:vm");
      const text = readFileSync(${JSON.stringify(program)}, "utf8").replace(/^#!.*/, "");
      const words = "(function (exports, require, module, __filename, __dirname) {" + text + "\\n})";
      const compiled = new Script(words, {
        filename: ${JSON.stringify(program)},
        cachedData: readFileSync(${JSON.stringify(`${program}.compiled`)}),
      });
      console.log(compiled.cachedDataRejected);`;
    expect(spawnSync(process.execPath, ["-e", script], { encoding: "utf8" }).stdout.trim()).toBe("false");
    const e = await editor({ folders: [resolve("samples/library")], bundle: server });
    expect(await e.ask("workspace/symbol", { query: "magnesium-4g" })).toHaveLength(1);
    await e.quit();
    expect(e.child!.exitCode).toBe(0);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
