/** A run that looked at nothing, or lost what it had to say, must not end as a clean one does. */
import { execFileSync, spawnSync } from "node:child_process";
import { closeSync, existsSync, mkdirSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { standardLibrary } from "../../language/checks/example.ts";
import { asOf, folderWith, runIn, write } from "./run-here.ts";

const check = ["check", ...asOf];
const wrong = standardLibrary.replace("= 8 mL", "= 0.8 mL");

describe("nothing to check", () => {
  test("empty standard input stops the run: what should have written it has failed", async () => {
    const ran = await runIn(folderWith({}), [...check, "-"], { engine, stdin: "" });
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain("Standard input is empty");
  });

  test.each([
    ["empty", "", "is empty"],
    ["blank", "\ufeff \r\n\t\n", "is empty"],
    ["only comments", "# recipe a {\r\n#}\n", "holds only comments"],
  ])("a file that is %s is told", async (_, text, what) => {
    const ran = await runIn(folderWith({ "a.misce": text }), check, { engine });
    expect(ran.status).toBe(1);
    expect(ran.out).toContain(`The file ${what}, so nothing in it was checked.`);
  });

  test.each(["x", "# a\nx", "# a\rx", "recipe a {\n}\n"])("of %j the language tells", async (text) => {
    expect((await runIn(folderWith({ "a.misce": text }), check, { engine })).out).not.toContain(
      "file-declares-nothing",
    );
  });
});

test.each([
  ["", "is empty"],
  ["sub", "a folder"],
  ["lots.csv", "an inventory"],
])("standard input does not stand for %j", async (name, what) => {
  const folder = folderWith({ "sub/a.misce": "stock a\n" });
  const ran = await runIn(folder, [...check, "-", "--stdin-name", name], { engine, stdin: "stock a {\n}\n" });
  expect(ran).toMatchObject({ status: 2, out: "" });
  expect(ran.err).toContain(what);
});

describe("what git does not follow counts as changed", () => {
  const since = [...check, "--changed-since", "HEAD"];
  const git = (folder: string, ...words: string[]) =>
    execFileSync("git", ["-c", "user.name=Test", "-c", "user.email=test@example.org", ...words], {
      cwd: folder,
      stdio: "ignore",
    });
  function committed(files: Record<string, string>): string {
    const folder = folderWith(files);
    git(folder, "init", "-q");
    git(folder, "add", "-A");
    git(folder, "commit", "-q", "-m", "first");
    return folder;
  }

  test("a library outside the working copy", async () => {
    const elsewhere = folderWith({ "library.misce": wrong });
    const ran = await runIn(committed({ "README.md": "" }), [...since, elsewhere], { engine });
    expect(ran.status).toBe(1);
    expect(ran.out).toContain("claim-differs");
  });

  test("a file that git ignores", async () => {
    const folder = committed({ ".gitignore": "library.misce\n", "library.misce": wrong });
    expect((await runIn(folder, since, { engine })).status).toBe(1);
  });

  test.each(["--assume-unchanged", "--skip-worktree"])("a file that git was told to leave alone: %s", async (flag) => {
    const folder = committed({ "library.misce": standardLibrary });
    git(folder, "update-index", flag, "library.misce");
    write(folder, "library.misce", wrong);
    expect((await runIn(folder, since, { engine })).status).toBe(1);
  });

  test.each(["--assume-unchanged", "--skip-worktree"])(
    "a file that is gone, and that git was told to leave alone: %s",
    async (flag) => {
      const at = standardLibrary.indexOf("\nrecipe ");
      const folder = committed({ "a.misce": standardLibrary.slice(0, at), "b.misce": standardLibrary.slice(at) });
      git(folder, "update-index", flag, "a.misce");
      rmSync(join(folder, "a.misce"));
      expect((await runIn(folder, since, { engine })).status).toBe(1);
    },
  );

  test("what is gone from a submodule, or was never fetched", async () => {
    const at = standardLibrary.indexOf("\nrecipe ");
    const part = committed({ "drugs.misce": standardLibrary.slice(0, at) });
    const folder = committed({ "recipe.misce": `site {\n  name "Kestrel Quay"\n}\n${standardLibrary.slice(at)}` });
    git(folder, "-c", "protocol.file.allow=always", "submodule", "add", "-q", part, "shared");
    git(folder, "commit", "-q", "-m", "second");
    const whole = await runIn(folder, [...since, "--level", "error"], { engine });
    expect(whole.out).toContain("2 files checked");
    rmSync(join(folder, "shared/drugs.misce"));
    expect((await runIn(folder, since, { engine })).status).toBe(1);
    git(folder, "submodule", "deinit", "-q", "-f", "shared");
    expect((await runIn(folder, since, { engine })).status).toBe(1);
  });

  test("another repository within it", async () => {
    const folder = committed({ "README.md": "" });
    write(folder, "part/library.misce", wrong);
    git(join(folder, "part"), "init", "-q");
    git(join(folder, "part"), "add", "-A");
    git(join(folder, "part"), "commit", "-q", "-m", "first");
    expect((await runIn(folder, since, { engine })).status).toBe(1);
  });

  test("a run that had nothing to do says so", async () => {
    const folder = committed({ "library.misce": standardLibrary });
    const ran = await runIn(folder, since, { engine });
    expect(ran.status).toBe(0);
    expect(ran.out).toContain("No file checked as of 2026-11-25: none was changed");
  });
});

describe("what is read is not written over", () => {
  test.each([
    ["a report", ["check", "--output", "library.misce"]],
    ["a report, over lots", ["check", "--output", "lots.CSV"]],
    ["a baseline", ["check", "--baseline", "new.misce", "--write-baseline"]],
    ["a comparison", ["compare", "library.misce", "library.misce", "--output", "library.misce"]],
    ["an export", ["export", "magnesium-4g", "--out", "library.misce"]],
    ["its summary", ["export", "magnesium-4g", "--summary", "library.misce"]],
  ])("%s", async (_, words) => {
    const folder = folderWith({ "library.misce": standardLibrary });
    const ran = await runIn(folder, words, { engine });
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain("Name another");
    expect(readFileSync(join(folder, "library.misce"), "utf8")).toBe(standardLibrary);
    expect(readdirSync(folder)).toEqual(["library.misce"]);
  });

  test.each([
    ["check", "--output", "a", "--baseline", "./a", "--write-baseline"],
    ["export", "magnesium-4g", "--out", "a", "--summary", "./a"],
  ])("one name for two answers: %s", async (...words) => {
    const folder = folderWith({ "library.misce": standardLibrary });
    expect((await runIn(folder, words, { engine })).err).toContain("a file of its own");
    expect(existsSync(join(folder, "a"))).toBe(false);
  });
});

test.each(["check", "sheet magnesium-4g", "export magnesium-4g", "plan magnesium-4g"])(
  "an inventory that is none is not left out: %s",
  async (words) => {
    const folder = folderWith({ "library.misce": standardLibrary });
    mkdirSync(join(folder, "lots"));
    for (const name of ["library.misce", "lots"]) {
      const ran = await runIn(folder, [...words.split(" "), "--inventory", name], { engine });
      if (ran.err.includes("unknown option")) continue; // export has no such flag
      expect(ran).toMatchObject({ status: 2, out: "" });
      expect(ran.err).toContain("--inventory takes .csv files");
      expect(ran.err).toContain("everything else before --inventory");
    }
  },
);

describe.each(["sheet magnesium-4g", "export magnesium-4g", "plan magnesium-4g", "explain magnesium-4g dose"])(
  "an inventory that is not read as a whole: %s",
  (words) => {
    const ran = (rows: string) =>
      runIn(
        folderWith({ "library.misce": standardLibrary, "lots.csv": rows }),
        [...words.split(" "), ...(words.startsWith("sheet") ? [] : asOf), "--inventory", "lots.csv"],
        { engine },
      );

    test("a row that is not used is told", async () => {
      const whole = await ran("stock,lot,expires\nmagnesium-ampoule,A1,2028-05-01\n");
      expect(whole.err).not.toContain("not used");
      const part = await ran("stock,lot,expires\nmagnesium-ampoule,A1,01/05/28\nmagnesium-ampoule,A2,2028-05-01\n");
      expect(part.err).toContain("misce: lots.csv, a row that is not used: The expiry in line 2: 01/05/28");
      expect(part.status).toBe(whole.status);
    });

    test.each(["", "Artikel;Charge\nmagnesium-ampoule;A1\n"])(
      "nothing is answered without any of it: %j",
      async (text) => {
        const none = await ran(text);
        expect(none).toMatchObject({ status: 2, out: "" });
        expect(none.err).toContain("Without its lots nothing is answered.");
      },
    );
  },
);

test("a clock that has lost its day stops the run, a day outside the calendar too", async () => {
  const folder = folderWith({ "library.misce": standardLibrary });
  const ran = await runIn(folder, ["check"], { engine, now: () => new Date(1970, 0, 1, 12) });
  expect(ran).toMatchObject({ status: 2, out: "" });
  expect(ran.err).toContain("clock says 1970-01-01");
  for (const day of ["0000-01-01", "1899-12-31", "2200-01-01", "2026-02-30"]) {
    const told = await runIn(folder, ["check", "--as-of", day], { engine });
    expect(told).toMatchObject({ status: 2, out: "" });
    expect(told.err).not.toContain("fault of this program");
  }
});

describe("the program itself", () => {
  let program: string;
  beforeAll(() => {
    const folder = mkdtempSync(join(tmpdir(), "misce-built-"));
    program = join(folder, "misce.js");
    const script = new URL("../../client/cli/build.mjs", import.meta.url).href;
    const words = `import { bundle } from ${JSON.stringify(script)}; await bundle(${JSON.stringify(program)});`;
    execFileSync(process.execPath, ["--input-type=module", "--eval", words]);
    return () => rmSync(folder, { recursive: true, force: true });
  });

  test.skipIf(!existsSync("/dev/full"))("a report that the disk does not take is told, with status 2", () => {
    const folder = folderWith({ "library.misce": standardLibrary });
    for (const words of [
      check,
      [...check, "--format", "json"],
      ["explain"],
      ["sheet", "magnesium-4g"],
      ["--help"],
      ["--version"],
      ["check", "--help"],
    ]) {
      const full = openSync("/dev/full", "w");
      const ran = spawnSync(process.execPath, [program, ...words], { cwd: folder, stdio: ["ignore", full, "pipe"] });
      closeSync(full);
      expect(ran.status).toBe(2);
      expect(ran.stderr.toString()).toContain("Standard output could not be written: the disk is full");
    }
  });

  test.skipIf(!existsSync("/proc"))("a cache folder that cannot be made costs nothing", () => {
    const folder = folderWith({ "library.misce": standardLibrary });
    const words = [program, ...check, "--cache-folder", "/proc/no-such/folder"];
    expect(spawnSync(process.execPath, words, { cwd: folder, timeout: 200_000 }).status).toBe(0);
  });
});
