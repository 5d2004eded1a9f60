/** The least left over, held against trying every count: the search must never miss a better choice nor invent one. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { leastWaste, type Size } from "../../language/planning/least-waste.ts";
import { Exact } from "../../language/quantities/exact.ts";

const seed = 20261125;

function size(name: string, yields: string): Size {
  return { name, yields: Exact.of(yields) };
}

/** Every combination up to what one size alone would need. */
function byTrying(needed: number, sizes: readonly number[]): { waste: number; containers: number } {
  let best = { waste: Number.POSITIVE_INFINITY, containers: Number.POSITIVE_INFINITY };
  const walk = (k: number, sum: number, containers: number): void => {
    if (sum >= needed) {
      const waste = sum - needed;
      if (waste < best.waste || (waste === best.waste && containers < best.containers)) best = { waste, containers };
      return;
    }
    if (k === sizes.length) return;
    for (let n = 0; n <= Math.ceil((needed - sum) / sizes[k]!); n++) walk(k + 1, sum + n * sizes[k]!, containers + n);
  };
  walk(0, 0, 0);
  return best;
}

describe("least left over", () => {
  test("equals trying everything, for random needs and sizes", () => {
    const sizes = fc.uniqueArray(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 160 }), sizes, fc.constantFrom(1, 3, 10, 1000), (needed, list, part) => {
        const as = (n: number) => Exact.ratio(n, part);
        const found = leastWaste(
          as(needed),
          list.map((n, k) => ({ name: `s${k}`, yields: as(n) })),
        )!;
        const tried = byTrying(needed, list);
        expect(found.waste.times(Exact.of(part)).toText()).toBe(String(tried.waste));
        expect(found.containers).toBe(tried.containers);
        const sum = found.counts.reduce((n, c) => n + c.count * list[Number(c.name.slice(1))]!, 0);
        expect(sum - needed).toBe(tried.waste);
      }),
      { seed, numRuns: 400 },
    );
  });

  test("prefers fewer containers where as much is left over", () => {
    const found = leastWaste(Exact.of("1"), [size("half", "0.5"), size("whole", "1")])!;
    expect(found.counts).toEqual([{ name: "whole", count: 1 }]);
  });

  test("takes an exact fit of small ones over one large one", () => {
    const found = leastWaste(Exact.of("1.5"), [size("half", "0.5"), size("two", "2")])!;
    expect([found.counts, found.waste.toText()]).toEqual([[{ name: "half", count: 3 }], "0"]);
  });

  test("says nothing where nothing is needed, and nothing where there is nothing", () => {
    expect(leastWaste(Exact.zero, [size("a", "1")])).toBeUndefined();
    expect(leastWaste(Exact.one, [])).toBeUndefined();
    expect(leastWaste(Exact.one, [size("a", "0")])).toBeUndefined();
  });

  test("refuses sizes that have no workable common measure, and does not fill the memory", () => {
    expect(leastWaste(Exact.of("5000"), [size("a", "7.000001"), size("b", "3.000007")])).toBeUndefined();
  });
});
