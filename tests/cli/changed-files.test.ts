/** What a change reaches. Each case ends with the files that were checked; leaving out one that the change broke is the worst fault. */
import { execFileSync } from "node:child_process";
import { mkdirSync, renameSync, rmSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { asOf, folderWith, runIn, write } from "./run-here.ts";

const library = {
  "lib/site.misce": "site {\n}\n",
  "lib/mag.misce": "stock mag {\n  uses salt\n}\n",
  "lib/salt.misce": "stock salt {\n}\n",
  "lib/lots.misce": "lots salt {\n}\n",
  "lib/a.misce": "recipe a {\n  uses mag\n}\n",
  "lib/b.misce": "recipe b {\n  uses salt\n}\n",
  "lib/c.misce": "recipe c {\n}\n",
  "README.md": "",
};
const all = [
  "lib/a.misce",
  "lib/b.misce",
  "lib/c.misce",
  "lib/lots.misce",
  "lib/mag.misce",
  "lib/salt.misce",
  "lib/site.misce",
];

function git(folder: string, ...words: string[]): void {
  const identity = ["-c", "user.name=Test", "-c", "user.email=test@example.org", "-c", "commit.gpgsign=false"];
  execFileSync("git", [...identity, ...words], { cwd: folder, stdio: "ignore" });
}

function committed(): string {
  const folder = folderWith(library);
  git(folder, "init", "-q");
  git(folder, "add", "-A");
  git(folder, "commit", "-q", "-m", "first");
  return folder;
}

async function checked(folder: string, words: string[]): Promise<string[]> {
  const ran = await runIn(folder, ["check", ...asOf, "--format", "json", ...words]);
  expect(ran.err).toBe("");
  return JSON.parse(ran.out).files;
}

describe("--changed-since", () => {
  const since = ["--changed-since", "HEAD"];

  test.each<[string, (folder: string) => void, string[]]>([
    ["nothing", () => {}, []],
    ["a recipe", (f) => write(f, "lib/c.misce", "recipe c {\n\n}\n"), ["lib/c.misce"]],
    ["a file that is no recipe", (f) => write(f, "README.md", "x"), []],
    ["a new file", (f) => write(f, "lib/new.misce", "recipe n {\n}\n"), ["lib/new.misce"]],
    [
      "a stock, directly and through another",
      (f) => write(f, "lib/salt.misce", "stock salt {\n\n}\n"),
      ["lib/a.misce", "lib/b.misce", "lib/mag.misce", "lib/salt.misce"],
    ],
    [
      "a stock that is no longer declared",
      (f) => write(f, "lib/salt.misce", "# empty\n"),
      ["lib/a.misce", "lib/b.misce", "lib/mag.misce", "lib/salt.misce"],
    ],
    [
      "a file that was removed",
      (f) => rmSync(join(f, "lib/salt.misce")),
      ["lib/a.misce", "lib/b.misce", "lib/mag.misce"],
    ],
    [
      "a file that was renamed",
      (f) => renameSync(join(f, "lib/mag.misce"), join(f, "lib/m.misce")),
      ["lib/a.misce", "lib/m.misce"],
    ],
    ["the lots", (f) => write(f, "lib/lots.misce", "lots salt {\n\n}\n"), all],
    [
      "lots that were removed",
      (f) => rmSync(join(f, "lib/lots.misce")),
      all.filter((name) => name !== "lib/lots.misce"),
    ],
    ["the site", (f) => write(f, "lib/site.misce", "site {\n\n}\n"), all],
    [
      "a site that was removed",
      (f) => rmSync(join(f, "lib/site.misce")),
      all.filter((name) => name !== "lib/site.misce"),
    ],
    [
      "a site inside the library",
      (f) => {
        mkdirSync(join(f, "lib/in"));
        write(f, "lib/in/site.misce", "site {\n}\n");
      },
      [...all, "lib/in/site.misce"].sort(),
    ],
  ])("%s", async (_, change, expected) => {
    const folder = committed();
    change(folder);
    expect(await checked(folder, since)).toEqual(expected);
    expect(await checked(folder, [...since, "lib"])).toEqual(expected);
  });

  test("from inside the working copy, and through a link to it", async () => {
    const folder = committed();
    write(folder, "lib/mag.misce", "stock mag {\n}\n");
    expect(await checked(join(folder, "lib"), since)).toEqual(["a.misce", "mag.misce"]);
    const other = folderWith({});
    symlinkSync(folder, join(other, "link"));
    expect(await checked(folder, [...since, join(other, "link/lib")])).toHaveLength(2);
  });

  test("against an older revision, what was committed since counts", async () => {
    const folder = committed();
    write(folder, "lib/salt.misce", "# moved\n");
    git(folder, "commit", "-q", "-a", "-m", "second");
    expect(await checked(folder, since)).toEqual([]);
    expect(await checked(folder, ["--changed-since", "HEAD~1"])).toContain("lib/b.misce");
  });

  test("an unknown revision and a folder outside git stop the run", async () => {
    const words = ["check", ...asOf, "--changed-since"];
    const unknown = await runIn(committed(), [...words, "no-such"]);
    expect(unknown).toMatchObject({ status: 2, out: "" });
    expect(unknown.err).toContain('git knows no revision "no-such" here');
    const flagLike = await runIn(committed(), [...words, "--output=x"]);
    expect(flagLike.status).toBe(2);
    expect((await runIn(folderWith(library), [...words, "HEAD"])).err).toContain("needs a git working copy");
  });
});

describe("--changed", () => {
  test("takes the files as named, with those that use them", async () => {
    const folder = folderWith(library);
    expect(await checked(folder, ["--changed", "lib/mag.misce", "lib/c.misce"])).toEqual([
      "lib/a.misce",
      "lib/c.misce",
      "lib/mag.misce",
    ]);
    expect(await checked(folder, ["lib/a.misce", "--changed", "lib/mag.misce"])).toEqual(["lib/a.misce"]);
  });

  test("a name that the change took away is found in the files that used it", async () => {
    const folder = folderWith({ ...library, "lib/salt.misce": "# nothing here now\n" });
    expect(await checked(folder, ["--changed", "lib/salt.misce"])).toEqual([
      "lib/b.misce",
      "lib/mag.misce",
      "lib/salt.misce",
    ]);
  });

  test("a file of no library of the run stops the run: nothing would be looked at for it", async () => {
    const folder = folderWith({ "a.misce": "stock a\n", "other/b.misce": "stock b\n", "notes.txt": "" });
    const changed = (...names: string[]) => runIn(folder, ["check", "a.misce", "--changed", ...names]);
    for (const names of [["other/b.misce"], ["a.misce", "other/b.misce"]]) {
      const ran = await changed(...names);
      expect(ran).toMatchObject({ status: 2, out: "" });
      expect(ran.err).toContain('"other/b.misce", which belongs to no library that is checked here');
    }
    expect((await changed("a.misce", "notes.txt")).status).toBe(0);
  });

  test("a file that is not there stops the run", async () => {
    const ran = await runIn(folderWith(library), ["check", ...asOf, "--changed", "lib/none.misce"]);
    expect(ran).toMatchObject({ status: 2, out: "" });
    expect(ran.err).toContain("use --changed-since");
  });
});

test.each([
  [["--changed", "a.misce", "--changed-since", "HEAD"], "not both"],
  [["--write-baseline"], "needs --baseline FILE"],
  [["--baseline", "b", "--write-baseline", "--changed", "a.misce"], "needs a run over all files"],
  [["--stdin-name", "a.misce"], "Add - to the paths"],
])("flags that contradict each other are refused: %j", async (flags, message) => {
  const ran = await runIn(folderWith({ "a.misce": "" }), ["check", ...flags]);
  expect(ran).toMatchObject({ status: 2, out: "" });
  expect(ran.err).toContain(message);
});
