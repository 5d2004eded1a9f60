/** A finding keeps its fingerprint, and a baseline its worth, from whatever folder the command is run in. */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { engine } from "../../client/cli/engine.ts";
import { standardLibrary } from "../../language/checks/example.ts";
import { asOf, folderWith, runIn } from "./run-here.ts";

const faulty = "recipe first {\n}\n";
const withLibraries = () => {
  const folder = folderWith({
    "one/library.misce": standardLibrary,
    "one/recipes/first.misce": faulty,
    "one/recipes/loose.misce": "a line outside\n",
    "one/shelf.csv": "stock,lot,expires\nmagnesium-of-nobody,A1,2028-05-01\n",
    "two/library.misce": standardLibrary,
    "two/recipes/first.misce": faulty,
  });
  mkdirSync(join(folder, ".git"));
  return folder;
};
const fingerprints = async (cwd: string, ...words: string[]) => {
  const { out } = await runIn(cwd, ["check", ...words, "--format", "gitlab", ...asOf], { engine });
  return (JSON.parse(out) as { fingerprint: string }[]).map((f) => f.fingerprint).sort();
};

test("fingerprints are the same from the top of the working copy, from the library and from beside it", async () => {
  const top = withLibraries();
  const here = await fingerprints(top, "one", "--inventory", "one/shelf.csv");
  expect(here.length).toBeGreaterThan(3);
  expect(await fingerprints(join(top, "one"), ".", "--inventory", "shelf.csv")).toEqual(here);
  expect(await fingerprints(join(top, "one/recipes"), "..", "--inventory", "../shelf.csv")).toEqual(here);
  expect(await fingerprints(join(top, "two"), "../one", "--inventory", "../one/shelf.csv")).toEqual(here);
  // What is known in one library does not pass for known in another.
  const both = await fingerprints(top, "one", "two");
  expect(new Set(both).size).toBe(both.length);
  expect(await fingerprints(join(top, "two"))).toEqual(await fingerprints(top, "two"));
});

test("a baseline made in one place holds in the others, for an inventory too", async () => {
  const top = withLibraries();
  const made = ["--baseline", "known.json", "--write-baseline", ...asOf];
  await runIn(top, ["check", "one", "--inventory", "one/shelf.csv", ...made], { engine });
  for (const [cwd, library, shelf, baseline] of [
    [top, "one", "one/shelf.csv", "known.json"],
    [join(top, "one"), ".", "shelf.csv", "../known.json"],
    [join(top, "two"), "../one", "../one/shelf.csv", "../known.json"],
  ] as const) {
    const words = ["check", library, "--inventory", shelf, "--baseline", baseline, ...asOf];
    expect(await runIn(cwd, words, { engine })).toMatchObject({ status: 0 });
  }
});
