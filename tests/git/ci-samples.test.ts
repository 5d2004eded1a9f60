/** The ready-made examples do what they say, with real git and a shell. */
import { spawnSync } from "node:child_process";
import { chmodSync, copyFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Scratch, useProgram } from "./scratch.ts";

const program = useProgram();
const samples = join(import.meta.dirname, "../../samples/ci");
const magnesium = "recipes/magnesium-4g.misce";
let scratch: Scratch;

beforeEach(() => {
  scratch = Scratch.withSamples(program.path());
});
afterEach(() => scratch.remove());

/** Judged as of one day, so that the lots of the samples do not run out under the test. */
const env = () => {
  const dated = join(scratch.folder, ".git/misce-dated");
  const words = `command=$1\nshift\ncase $command in check | compare) set -- --as-of 2026-11-25 "$@" ;; esac\n`;
  writeFileSync(dated, `#!/bin/sh\n${words}exec "${process.execPath}" "${program.path()}" "$command" "$@"\n`);
  chmodSync(dated, 0o755);
  return { ...process.env, MISCE: dated };
};

function review(): { status: number | null; out: string } {
  const run = spawnSync("sh", [join(samples, "review.sh"), "HEAD", "."], {
    cwd: scratch.folder,
    env: env(),
    encoding: "utf8",
  });
  return { status: run.status, out: run.stdout + run.stderr };
}

test("review.sh writes its reports and passes on what the check says", () => {
  expect(review()).toMatchObject({ status: 0, out: expect.stringContaining("Nothing changed in meaning") });
  scratch.edit(magnesium, "4 g per bag", "40 g per bag");
  const second = review();
  expect(second.status).toBe(1);
  expect(second.out).toContain("10 TIMES MORE");
  for (const file of ["misce-report.sarif", "misce-junit.xml", "misce-review.md", "misce-review.html"]) {
    expect([file, existsSync(join(scratch.folder, file))]).toEqual([file, true]);
  }
  expect(scratch.read("misce-report.sarif")).toContain("dose-outside-window");
});

test("the pre-commit hook lets a sound change through, stops an error, and looks at what is staged", () => {
  const hook = join(scratch.folder, ".git/hooks/pre-commit");
  copyFileSync(join(samples, "pre-commit"), hook);
  chmodSync(hook, 0o755);
  const commit = () =>
    spawnSync("git", ["commit", "-q", "-m", "change"], { cwd: scratch.folder, env: env(), encoding: "utf8" });
  scratch.edit(magnesium, "infuse-over     4 h", "infuse-over     5 h");
  scratch.git("add", "-A");
  expect(commit()).toMatchObject({ status: 0 });
  scratch.edit(magnesium, "4 g per bag", "40 g per bag");
  scratch.git("add", "-A");
  scratch.edit(magnesium, "40 g per bag", "4 g per bag");
  const stopped = commit();
  expect(stopped.status).not.toBe(0);
  expect(stopped.stdout + stopped.stderr).toContain("dose-outside-window");
});

test("the pre-commit hook on a first commit, a name in capitals, and a commit that takes the last recipe out", () => {
  const hook = join(scratch.folder, ".git/hooks/pre-commit");
  copyFileSync(join(samples, "pre-commit"), hook);
  chmodSync(hook, 0o755);
  const commit = () => {
    scratch.git("add", "-A");
    const words = ["commit", "-q", "-m", "change"];
    const run = spawnSync("git", words, { cwd: scratch.folder, env: env(), encoding: "utf8" });
    return { status: run.status, out: run.stdout + run.stderr };
  };
  scratch.git("checkout", "-q", "--orphan", "fresh");
  expect(commit()).toMatchObject({ status: 0 });
  const wrong = scratch
    .read(magnesium)
    .replace("recipe magnesium-4g ", "recipe magnesium-4g-b ")
    .replace("= 8 mL", "= 0.8 mL");
  const capitals = join(scratch.folder, "recipes/WITH BLANK.MISCE");
  writeFileSync(capitals, wrong);
  const stopped = commit();
  expect(stopped.status).not.toBe(0);
  expect(stopped.out).toContain("claim-differs");
  rmSync(capitals);
  scratch.git("rm", "-r", "-q", "--ignore-unmatch", "--", ":(icase)*.misce");
  expect(commit()).toMatchObject({ status: 0, out: expect.stringContaining("takes out the last recipe file") });
});

test("a review of another change is not shown where the comparison cannot be made", () => {
  writeFileSync(join(scratch.folder, "misce-review.md"), "the review of yesterday");
  const run = spawnSync("sh", [join(samples, "review.sh"), "no-such-revision", "."], {
    cwd: scratch.folder,
    env: env(),
    encoding: "utf8",
  });
  expect(run.status).toBe(2);
  expect(run.stdout).not.toContain("the review of yesterday");
});

test("every example that calls review.sh, and the flags it uses, are there", () => {
  const texts = readdirSync(samples).map((name) => [name, readFileSync(join(samples, name), "utf8")] as const);
  expect(
    texts
      .filter(([, text]) => text.includes("review.sh"))
      .map(([name]) => name)
      .sort(),
  ).toEqual(["README.md", "azure-pipelines.yml", "github-actions.yml", "gitlab-ci.yml", "jenkinsfile", "review.sh"]);
  for (const [name, text] of texts) {
    if (!/\.(yml|sh)$|^pre-commit$/.test(name)) continue;
    for (const [, command, flags] of text.matchAll(/(?:\$misce|misce) (check|compare|format)((?: --[\w-]+)+)?/g)) {
      const help = scratch.misce(command!, "--help").out;
      for (const flag of flags?.trim().split(/\s+/) ?? []) expect([name, help.includes(flag)]).toEqual([name, true]);
    }
  }
});
