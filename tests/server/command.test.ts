/** `misce server`, as an editor starts it that knows only the command line. */
import { mkdtempSync, rmSync } from "node:fs";
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
