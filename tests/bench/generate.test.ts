/** The benchmark's recipes are what they are taken for: alike in size, right under all checks, and each planted fault is found. */
import { describe, expect, it } from "vitest";
import { Library } from "../../language/library.ts";
import { generate } from "./generate.ts";

function checked(faulty: number) {
  const made = generate({ seed: 3, recipes: 120, faulty });
  const library = new Library({ asOf: "2026-11-25" });
  for (const [file, text] of made.files) library.open(file, text);
  const found = made.files.flatMap(([file]) => library.findings(file));
  return { made, found };
}

describe("generated recipes", () => {
  it("are silent under all checks, with the library they use", () => {
    const { made, found } = checked(0);
    expect(found.map((f) => `${f.span.file} ${f.name}: ${f.message}`)).toEqual([]);
    expect(made.faulty).toEqual([]);
  });

  it("show every planted fault", () => {
    const { made, found } = checked(1);
    expect(made.faulty.length).toBe(120);
    const told = new Set(found.map((f) => f.span.file));
    expect(made.faulty.filter((file) => !told.has(file))).toEqual([]);
    expect(new Set(found.map((f) => f.name)).size).toBeGreaterThan(8);
  });

  it("are of about 80 lines and use 200 files of stock", () => {
    const { files } = generate({ seed: 1, recipes: 200, faulty: 0.02 });
    const recipes = files.filter(([file]) => file.startsWith("recipes/"));
    const lines = recipes.reduce((sum, [, text]) => sum + text.split("\n").length - 1, 0) / recipes.length;
    expect(Math.abs(lines - 80)).toBeLessThan(5);
    expect(files.filter(([file]) => file.startsWith("stock/")).length).toBe(200);
  });

  it("are the same for the same seed", () => {
    const options = { seed: 9, recipes: 20, faulty: 0.5 };
    expect(generate(options)).toEqual(generate(options));
    expect(generate({ ...options, seed: 10 })).not.toEqual(generate(options));
  });
});
