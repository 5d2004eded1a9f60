/**
 * A real Emacs with Eglot, in batch, with the set-up of client/emacs: findings, a fix, a rename over several files. Debian's packages are
 * installed where they are absent and can be; where they cannot, the test says so and is left out.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { expect, test } from "vitest";

function eglotIsThere(): boolean {
  const load = ["-q", "--batch", "--eval", "(progn (package-initialize) (require 'eglot) (kill-emacs 0))"];
  return spawnSync("emacs", load, { stdio: "ignore", timeout: 60_000 }).status === 0;
}

function installed(): boolean {
  if (eglotIsThere()) return true;
  // From Emacs 29 on Eglot is part of it, and later Debians have no package of it.
  for (const packages of [["emacs-nox", "elpa-eglot"], ["emacs-nox"]]) {
    const words = ["install", "-y", "--no-install-recommends", ...packages];
    spawnSync("apt-get", words, { stdio: "ignore", timeout: 180_000 });
    if (eglotIsThere()) return true;
  }
  console.warn("Emacs with Eglot is not there and apt-get could not install it: the test in a real Emacs is left out.");
  return false;
}

test.skipIf(!installed())(
  "findings, a fix and a rename in Emacs, with letters of several bytes before the place",
  async () => {
    const folder = realpathSync(mkdtempSync(join(tmpdir(), "misce-emacs-")));
    try {
      const { bundleServer } = await import(new URL("../../server/build.mjs", import.meta.url).href);
      const server = join(folder, "bin", "server.js");
      await bundleServer(server);
      const library = join(folder, "library");
      cpSync("samples/library", library, { recursive: true });
      const file = join(library, "lots.misce");
      const good = readFileSync(file, "utf8").replace(/lot {2}"/, "$&µé\u{1F489}");
      const bad = good.replace(/(\u{1F489}[^"]*" +)expires/u, "$1Expires");
      expect(bad).not.toBe(good);
      writeFileSync(file, bad);
      const shown = ["stock/vials.misce", "recipes/magnesium-4g.misce"].map((name) => join(library, name));
      const before = shown.map((path) => readFileSync(path, "utf8"));
      const out = execFileSync("emacs", ["-q", "--batch", "-l", resolve("tests/editors/emacs.el")], {
        env: {
          ...process.env,
          LC_ALL: "C.UTF-8",
          HOME: folder,
          MISCE_FILE: file,
          MISCE_SERVER: server,
          MISCE_MODE: resolve("client/emacs/misce-mode.el"),
          MISCE_NAME: "lots magnesium-vial-10",
          MISCE_SHOWN: shown.join("\n"),
        },
        stdio: ["ignore", "pipe", "pipe"],
        encoding: "utf8",
        timeout: 220_000,
      });
      const told = JSON.parse(out.trim().split("\n").at(-1)!);
      expect(told.before).toEqual([{ code: "capital-letters", text: "Expires" }]);
      // The whole library, not the folder of the file: what is unsaved in one folder counts in the others.
      expect(resolve(told.root)).toBe(library);
      expect(told.fix).toBe("Write expires");
      expect(told.text).toBe(good);
      const renamed = before.map((text) => text.replaceAll(/\bmagnesium-vial-10\b/g, "renamed-here"));
      expect(renamed).not.toEqual(before);
      expect([told.vials, told["magnesium-4g"]]).toEqual(renamed);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
);
