/** What is freed of a recipe's reading and read again is the same: over all recipes of the samples, faulty ones included, and generated ones. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { FileChunk } from "../../language/library/file-chunk.ts";
import { KeptReadings } from "../../language/library/kept-readings.ts";
import { Library } from "../../language/library.ts";
import { LeanReading } from "../../language/model/lean-reading.ts";
import { readChunk } from "../../language/model/read-chunk.ts";
import { ReadStep } from "../../language/model/read-step.ts";
import { splitChunks } from "../../language/syntax/chunks.ts";
import { generate } from "../bench/generate.ts";

const samples = readdirSync("samples", { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".misce"))
  .map((name): [string, string] => [name, readFileSync(join("samples", name), "utf8")]);
const { files } = generate({ seed: 11, recipes: 120, faulty: 0.3 });
const chunks = [...samples, ...files].flatMap(([file, text]) =>
  splitChunks(text).map(({ start, text: part }) => new FileChunk(file, part, start)),
);

describe("what is read again", () => {
  test("tokens of a step, and the tree", () => {
    let steps = 0;
    for (const chunk of chunks) {
      const whole = readChunk(chunk);
      if (whole.problems.length + whole.tree.problems.length > 0) continue;
      const { tree, blocks } = whole;
      const tokens = whole.declarations.map((d) => (d.kind === "recipe" ? d.steps.map((s) => s.tokens) : []));
      steps += tokens.flat().length;
      const lean = new LeanReading(chunk.text, whole);
      for (const [i, declaration] of lean.declarations.entries()) {
        if (declaration.kind !== "recipe") continue;
        for (const step of declaration.steps) expect(step).toBeInstanceOf(ReadStep);
        expect(
          declaration.steps.map((s) => s.tokens),
          chunk.file,
        ).toEqual(tokens[i]);
      }
      expect(lean.tree, chunk.file).toEqual(tree);
      expect(lean.blocks, chunk.file).toEqual(blocks);
    }
    expect(steps).toBeGreaterThan(4000);
  });

  test("findings after a change of what recipes rest on equal those of a fresh library", () => {
    const around = new Map(samples.filter(([name]) => name.startsWith("library/")));
    const kept = new Library({ asOf: "2026-11-25" });
    for (const [file, text] of around) kept.open(file, text);
    const look = () => {
      for (const file of kept.files()) {
        kept.findings(file);
        kept.rest(file);
      }
    };
    look();
    let changes = 0;
    for (const [file, text] of [...around]) {
      const other = text.replace(/^stock (\S+) \{/m, "stock $1-gone {").replace(/\binjection\b/, "irrigation");
      if (other === text || file.includes("recipes")) continue;
      changes++;
      kept.change(file, other);
      look();
      const fresh = new Library({ asOf: "2026-11-25" });
      for (const [name, whole] of around) fresh.open(name, name === file ? other : whole);
      for (const name of kept.files()) expect(kept.findings(name), `${file}: ${name}`).toEqual(fresh.findings(name));
      kept.change(file, text);
      look();
      if (changes === 4) break;
    }
    expect(changes).toBe(4);
  });
});

test("readings are kept up to a bound, and what is no more makes room", () => {
  const kept = new KeptReadings();
  const long = (n: number) => new FileChunk(`r${n}.misce`, `recipe r${n} {\n  note "${"x".repeat(9000)}"\n}\n`, 0);
  const readings = Array.from({ length: 300 }, (_, n) => long(n));
  for (const chunk of readings) {
    void chunk.reading;
    kept.keepOrRelease(chunk);
  }
  const isKept = (chunk: FileChunk) => chunk.reading instanceof LeanReading;
  const first = readings.filter(isKept).length;
  expect(first).toBeGreaterThan(250);
  expect(first).toBeLessThan(300);
  const [gone] = readings;
  kept.forget(gone!);
  const last = readings.at(-1)!;
  kept.keepOrRelease(last);
  expect(isKept(last)).toBe(true);
});
