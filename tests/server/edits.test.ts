/**
 * Any edits, one after another: what the server's session answers equals one made new from the same texts, nothing crashes, and memory
 * does not grow. Seeded; MISCE_LONG=1 makes 100,000 of them, MISCE_SEED takes another seed.
 */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";
import { seeded } from "../bench/generate.ts";
import { Author } from "./random-edits.ts";

const isLong = process.env.MISCE_LONG === "1";
const edits = isLong ? 100_000 : 300;
/** Comparing with a new session costs far more than an edit: now and then is enough, since a stale finding stays. */
const compareEvery = isLong ? 500 : 60;

function clearedHeap(): number {
  setFlagsFromString("--expose-gc");
  (runInNewContext("gc") as () => void)();
  return process.memoryUsage().heapUsed / 1e6;
}

test(`${edits} random edits over the sample library`, () => {
  const seed = Number(process.env.MISCE_SEED ?? 20261125);
  const author = new Author(seeded(seed));
  const held: number[] = [];
  let compared = 0;
  const began = performance.now();
  for (let i = 1; i <= edits; i++) {
    author.step();
    if (i % compareEvery !== 0 && i !== edits) continue;
    const [first] = author.compare();
    compared++;
    const told = `seed ${seed}, edit ${i}, ${first?.key}; before it: ${author.recent.join("; ")}`;
    expect(first?.shown, told).toEqual(first?.fresh);
    held.push(clearedHeap());
    if (isLong && i % 2500 === 0) {
      const minutes = ((performance.now() - began) / 60_000).toFixed(1);
      console.log(`${i} edits, ${compared} comparisons, ${held.at(-1)!.toFixed(0)} MB held, ${minutes} min`);
    }
  }
  // The first quarter warms up; after it, the most that is held in each half stays the same within a fifth.
  const warm = held.slice(Math.floor(held.length / 4));
  const [early, late] = [warm.slice(0, warm.length / 2), warm.slice(warm.length / 2)];
  if (isLong) expect(Math.max(...late)).toBeLessThan(1.2 * Math.max(...early));
}, 10_800_000);
