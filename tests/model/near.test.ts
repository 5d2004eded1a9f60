/** Near names: the count of slips is that of the plain table, whatever is left out for speed. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { nearNames, slips } from "../../language/model/near.ts";

/** The whole table, cell by cell. */
function plainSlips(a: string, b: string): number {
  const table = Array.from({ length: a.length + 1 }, (_, i) => Array.from({ length: b.length + 1 }, (_, j) => i + j));
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(table[i - 1]![j]! + 1, table[i]![j - 1]! + 1, table[i - 1]![j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, table[i - 2]![j - 2]! + 1);
      table[i]![j] = cost;
    }
  }
  return table[a.length]![b.length]!;
}

test("slips are counted as in the whole table, up to the most that matter", () => {
  const word = fc.string({ unit: fc.constantFrom("a", "b", "c"), maxLength: 14 });
  fc.assert(
    fc.property(word, word, fc.integer({ min: 1, max: 3 }), (a, b, most) => {
      expect(slips(a, b, most)).toBe(Math.min(plainSlips(a, b), most + 1));
    }),
    { numRuns: 3000 },
  );
});

test("long words too", () => {
  const long = "x".repeat(300);
  expect(slips(`${long}ab`, `${long}ba`, 3)).toBe(1);
  expect(slips(long, `${long}y`.slice(1), 3)).toBe(1);
  expect(slips("", "abc", 3)).toBe(3);
});

test("an export of 20,000 unknown stocks is told within seconds", () => {
  const known = Array.from({ length: 100 }, (_, i) => `magnesium-vial-${i}`);
  const before = process.cpuUsage();
  for (let i = 0; i < 20_000; i++) nearNames(`stock-of-others-${i}`, known);
  expect(process.cpuUsage(before).user / 1e6).toBeLessThan(3);
});
