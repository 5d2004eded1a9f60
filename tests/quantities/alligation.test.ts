/** Two strengths mixed: what cannot be mixed, and that the amounts always make the strength. Published figures: tests/worked. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { alligate } from "../../language/quantities/alligation.ts";
import { Exact } from "../../language/quantities/exact.ts";
import { isRefusal, measure } from "../../language/quantities/quantity.ts";
import { findUnit } from "../../language/quantities/unit.ts";

describe("alligation", () => {
  const total = measure("100 mL");
  it("refuses a strength outside the two, two equal ones, and two kinds", () => {
    const reason = (high: string, low: string, wanted: string) => {
      const result = alligate(measure(high), measure(low), measure(wanted), total);
      return isRefusal(result) ? result.reason : "";
    };
    expect(reason("50 % w/v", "5 % w/v", "70 % w/v")).toMatch(/not between 5 % w\/v and 50 % w\/v/);
    expect(reason("50 % w/v", "5 % w/v", "4 % w/v")).toMatch(/not between/);
    expect(reason("5 % w/v", "5 % w/v", "5 % w/v")).toMatch(/not above/);
    expect(reason("50 % w/v", "5 % w/w", "10 % w/v")).not.toBe("");
  });
  it("makes the strength wanted, and all of the total, whatever the figures (seeded)", () => {
    const percent = (value: number) => ({ value: Exact.ratio(value, 100), unit: findUnit("% w/v").unit! });
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4000 }),
        fc.integer({ min: 1, max: 4000 }),
        fc.integer({ min: 0, max: 1000 }),
        (low, gap, at) => {
          const wanted = low + Math.floor((gap * at) / 1000);
          const made = alligate(percent(low + gap), percent(low), percent(wanted), total);
          if (isRefusal(made)) throw new Error(made.reason);
          const drug = made.high.value.times(percent(low + gap).value).plus(made.low.value.times(percent(low).value));
          expect(drug.equals(percent(wanted).value.times(total.value))).toBe(true);
          expect(made.high.value.plus(made.low.value).equals(total.value)).toBe(true);
          expect(made.low.value.isNegative() || made.high.value.isNegative()).toBe(false);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });
});
