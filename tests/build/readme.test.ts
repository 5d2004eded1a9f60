/** What the first page shows is what the samples hold, and what it points at is there. */
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { splitChunks } from "../../language/syntax/chunks.ts";

const readme = readFileSync("README.md", "utf8");
const shown = readme.split("```").find((block) => block.includes("\nrecipe "))!;

describe("the first page", () => {
  test("its recipe and stock are those of the sample library, which is checked", () => {
    const samples = ["stock/vials.misce", "recipes/magnesium-4g.misce"].flatMap((file) =>
      splitChunks(readFileSync(`samples/library/${file}`, "utf8")).map((chunk) => chunk.text.trim()),
    );
    const declared = splitChunks(shown.trim()).map((chunk) => chunk.text.trim());
    expect(declared.map((text) => text.split("\n")[0])).toEqual(["stock magnesium-vial-10 {", "recipe magnesium-4g {"]);
    for (const text of declared) expect(samples).toContain(text);
  });

  test("its links and the files of the samples that it names exist", () => {
    const links = [...readme.matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map((m) => m[1]!);
    const samples = [...readme.matchAll(/samples\/[\w./-]+\w/g)].map((m) => m[0]);
    expect(links.length).toBeGreaterThan(5);
    for (const path of [...links, ...samples]) expect(existsSync(path), path).toBe(true);
  });
});
