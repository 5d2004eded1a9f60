/** What a glance tells of a chunk is what reading it tells. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { declaresNothing, loneDeclaration, recipesOnly } from "../../language/model/lone-declaration.ts";
import { readChunk } from "../../language/model/read-chunk.ts";
import { splitChunks } from "../../language/syntax/chunks.ts";
import { seeded } from "../bench/generate.ts";

const samples = join(import.meta.dirname, "../../samples");
const texts = readdirSync(samples, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".misce"))
  .map((file) => readFileSync(join(samples, file), "utf8"));

/** @returns whether the glance told anything. */
function agrees(text: string): boolean {
  const read = readChunk({ text }).declarations;
  const lone = loneDeclaration(text);
  if (declaresNothing(text)) expect(read).toEqual([]);
  if (!lone) return false;
  expect(read.map(({ kind, name }) => ({ kind, name }))).toEqual([lone]);
  return true;
}

describe("a glance at a chunk", () => {
  it("agrees with its reading on the samples, and tells of nearly all", () => {
    const chunks = texts.flatMap((text) => splitChunks(text).map((c) => c.text));
    const told = chunks.filter(agrees).length;
    const named = chunks.filter((text) => /^(?!site)[a-z]+ \S+ \{/.test(text)).length;
    expect(named).toBeGreaterThan(500);
    expect(told).toBe(named);
  });

  it("agrees with its reading after random damage", () => {
    const random = seeded(5);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
    const shards = [
      "\n",
      "}",
      "{",
      " recipe x {",
      "\nstock y {\n",
      "} drug z {",
      "Recipe",
      "\t",
      "\u00a0",
      "\uFEFF",
      '"',
      "#",
      "source a",
      "\r",
      "é",
    ];
    let told = 0;
    for (let i = 0; i < 3000; i++) {
      let text = pick(splitChunks(pick(texts))).text.slice(0, 400);
      for (let n = 0; n < 3; n++) {
        const at = Math.floor(random() * (random() < 0.5 ? 30 : text.length));
        text = text.slice(0, at) + pick(shards) + text.slice(at + (random() < 0.5 ? 1 : 0));
      }
      for (const chunk of splitChunks(text)) {
        if (agrees(chunk.text)) told++;
        const only = recipesOnly(chunk.text);
        const read = readChunk({ text: chunk.text }).declarations;
        if (only) expect(read.map((d) => `${d.kind} ${d.name.name}`)).toEqual(only.map((name) => `recipe ${name}`));
      }
    }
    expect(told).toBeGreaterThan(500);
  });
});
