/** In a batch the same fault of every container is told once, of each of them; of some of them each is named. Figures of the sample library. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { ChunkFinding } from "../../language/checks/chunk-finding.ts";
import { toldOfSets } from "../../language/checks/each-of-set.ts";
import { Library } from "../../language/library.ts";

const root = join(import.meta.dirname, "../../samples/library");
const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".misce"));

/** What is told of the batch of four bags with one line of it changed. */
function told(recipe: string, from: string, to: string): string[] {
  const library = new Library({ asOf: "2026-11-25" });
  for (const name of files) {
    const text = readFileSync(join(root, name), "utf8");
    if (name.endsWith(recipe)) expect(text.split(from).length).toBe(2);
    library.open(name, name.endsWith(recipe) ? text.replace(from, () => to) : text);
  }
  return library.findings(files.find((name) => name.endsWith(recipe))!).map((f) => `${f.name}: ${f.message}`);
}

const ceftriaxone = "ceftriaxone-1g-batch.misce";

describe("one fault of every container of a batch", () => {
  it("is told once where each of the containers is entered", () => {
    const found = told(ceftriaxone, "    replace spike-2 on syringe with needle-2\n", "");
    expect(found.filter((each) => each.startsWith("vented-spike-in-bag"))).toEqual([
      expect.stringContaining("enters bags through spike-2"),
    ]);
  });
  it("is told of each of them and not of the first", () => {
    const strength = told("magnesium-2g-batch.misce", "concentration   19.23 mg/mL", "concentration   192.3 mg/mL");
    expect(strength).toEqual([
      expect.stringContaining("the steps give 19.23 mg/mL of magnesium-sulfate in each of bags"),
    ]);
    const bare = told(ceftriaxone, "    attach needle to waste\n", "");
    expect(bare.join()).toMatch(/goes into each of bags with waste, which carries no needle/);
  });
});

describe("findings that differ in the member of a set alone", () => {
  const at = { start: 5, end: 9 };
  const said = (...messages: string[]) =>
    toldOfSets(messages.map((message) => ({ at, message }) as ChunkFinding)).map(({ message }) => message);
  it("are one where all members are told, and each is named where one is not", () => {
    expect(said("Step 3 enters bags 1 of 3.", "Step 3 enters bags 2 of 3.", "Step 3 enters bags 3 of 3.")).toEqual([
      "Step 3 enters each of the 3 bags.",
    ]);
    expect(said("sack 1 of 2 holds 4 mL.", "sack 2 of 2 holds 4 mL.")).toEqual(["each of sack (2) holds 4 mL."]);
    expect(said("Step 3 enters bags 1 of 3.", "Step 3 enters bags 3 of 3.")).toHaveLength(2);
  });
  it("stay apart where another figure differs, or the place", () => {
    expect(said("bags 1 of 2 holds 4 mL.", "bags 2 of 2 holds 5 mL.")).toHaveLength(2);
    const [one, other] = [
      { at, message: "bags 1 of 2 leaks." },
      { at: { start: 20, end: 24 }, message: "bags 2 of 2 leaks." },
    ] as ChunkFinding[];
    expect(toldOfSets([one!, other!])).toHaveLength(2);
  });
});
