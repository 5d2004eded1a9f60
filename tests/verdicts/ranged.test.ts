/**
 * What is said of an order with a range of weights against the second judge at single weights of it: some at random, the ends, and both
 * sides of every cut between them. MISCE_LONG=1 asks 2,000 orders, MISCE_SEED begins elsewhere.
 */
import { describe, expect, it } from "vitest";
import { Random } from "../oracle/random.ts";
import { asked, rangedDifferences } from "./compare-ranged.ts";
import { rangedScenario } from "./generate-ranged.ts";
import { toldOf } from "./told.ts";
import { writtenScenario } from "./written.ts";

const isLong = process.env.MISCE_LONG === "1";
const first = Number(process.env.MISCE_SEED ?? 0);
const count = isLong ? 2_000 : 25;

describe("the verdict over a range", () => {
  it(`is that of its single weights for ${count} orders`, { timeout: 1_800_000 }, () => {
    const found: string[] = [];
    let unread = 0;
    for (let seed = first; seed < first + count; seed++) {
      const each = rangedScenario(seed);
      const written = writtenScenario(each);
      const weights = asked(each, new Random(seed));
      const { differing, unread: own } = rangedDifferences(each, toldOf(written.text, each.asOf), written, weights);
      unread += own;
      if (differing.length > 0) found.push(`MISCE_SEED=${seed}: ${differing.slice(0, 3).join("; ")}`);
    }
    expect(found).toEqual([]);
    // Of more than a few stretches the words name only the ends.
    expect(unread).toBeLessThan(count / 5);
  });
});
