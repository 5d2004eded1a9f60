/**
 * A real Neovim, headless, with the set-up of client/neovim: findings, hover, a fix. Debian's package is installed where it is absent and
 * can be; where it cannot, the test says so and is left out.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { expect, test } from "vitest";
import { checkByName } from "../../language/checks/registry.ts";

function neovimIsThere(): boolean {
  return spawnSync("nvim", ["--version"]).status === 0;
}

function installed(): boolean {
  if (neovimIsThere()) return true;
  const tried = spawnSync("apt-get", ["install", "-y", "neovim"], { stdio: "ignore", timeout: 180_000 });
  if (tried.status === 0 && neovimIsThere()) return true;
  console.warn("Neovim is not there and apt-get could not install it: the test in a real Neovim is left out.");
  return false;
}

test.skipIf(!installed())(
  "findings, hover and a fix in Neovim, with letters of several bytes before the place",
  async () => {
    const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-nvim-")));
    try {
      const { bundleServer } = await import(new URL("../../server/build.mjs", import.meta.url).href);
      const server = join(folder, "bin", "server.js");
      await bundleServer(server);
      const file = join(folder, "library.misce");
      // The fault stands behind letters that take two, two and four bytes on its own line.
      const good = checkByName.get("capital-letters")!.good;
      const bad = good.replace(/lot "[^"]*"(\s+)expires/, 'lot "µé\u{1F489}"$1Expires');
      expect(bad).not.toBe(good);
      writeFileSync(file, bad);
      const out = execFileSync("nvim", ["--headless", "-n", "-u", "NONE", "-S", resolve("tests/editors/neovim.lua")], {
        env: {
          ...process.env,
          MISCE_FILE: file,
          MISCE_SERVER: server,
          MISCE_LUA: resolve("client/neovim"),
          XDG_STATE_HOME: folder,
        },
        encoding: "utf8",
        timeout: 200_000,
      });
      const told = JSON.parse(out.trim().split("\n").at(-1)!);
      expect(told.before.map((d: { code: string }) => d.code)).toEqual(["capital-letters"]);
      expect(told.fix).toBeTruthy();
      expect(told.after).toEqual([]);
      expect(told.text).toBe(bad.replace("Expires", "expires"));
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
);
