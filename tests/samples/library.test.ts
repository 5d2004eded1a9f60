/** Every good sample is silent. Drug facts carry their sources in the samples themselves. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { Library } from "../../language/library.ts";

const samples = join(import.meta.dirname, "../../samples");
const folders = readdirSync(samples).filter((name) => name.startsWith("library"));

function misceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? misceFiles(path) : path.endsWith(".misce") ? [path] : [];
  });
}

describe.each(folders)("samples/%s", (name) => {
  const folder = join(samples, name);
  const library = new Library({ asOf: "2026-11-25" });
  const files = misceFiles(folder);
  for (const file of files) library.open(relative(samples, file), readFileSync(file, "utf8"));

  it("is a library with a site", () => {
    expect(existsSync(join(folder, "site.misce"))).toBe(true);
  });

  it.each(files.map((f) => relative(samples, f)))("%s is silent", (file) => {
    expect(
      library
        .findings(file)
        .filter((f) => !f.silenced)
        .map((f) => `${f.name}: ${f.message}`),
    ).toEqual([]);
  });
});
