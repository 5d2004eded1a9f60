/** Exact against BigInt fractions and against decimal.js at 200 digits. */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { agreesAsWritten, readOnScale, roundDose, wholeContainers } from "../../language/quantities/rounding.ts";

const D = Decimal.clone({ precision: 200, rounding: Decimal.ROUND_HALF_UP, toExpPos: 500, toExpNeg: -500 });

/** Small, near 2^53, and far beyond it. */
const whole = fc.oneof(
  fc.bigInt({ min: -1000n, max: 1000n }),
  fc.bigInt({ min: -(2n ** 54n), max: 2n ** 54n }),
  fc.bigInt({ min: -(10n ** 40n), max: 10n ** 40n }),
);
const fraction = fc.tuple(
  whole,
  whole.filter((d) => d !== 0n),
);
const decimalText = fc
  .tuple(fc.boolean(), fc.bigInt({ min: 0n, max: 10n ** 20n }), fc.integer({ min: 0, max: 12 }))
  .map(([minus, digits, places]) => {
    const padded = digits.toString().padStart(places + 1, "0");
    const text = places === 0 ? padded : `${padded.slice(0, -places)}.${padded.slice(-places)}`;
    return (minus && digits !== 0n ? "-" : "") + text;
  });

const abs = (n: bigint) => (n < 0n ? -n : n);
function gcd(a: bigint, b: bigint): bigint {
  return b === 0n ? abs(a) : gcd(b, a % b);
}
/** The reference: `n/d` in lowest terms by plain BigInt arithmetic. */
function lowest(n: bigint, d: bigint): string {
  const g = gcd(n, d);
  const s = d < 0n ? -1n : 1n;
  return `${(s * n) / g}/${(s * d) / g}`;
}
const exact = ([n, d]: [bigint, bigint]) => Exact.ratio(n, d);

describe("arithmetic is that of fractions", () => {
  test("plus, minus, times, over, negated, abs", () => {
    fc.assert(
      fc.property(fraction, fraction, ([a, b], [c, d]) => {
        const x = exact([a, b]);
        const y = exact([c, d]);
        expect(x.plus(y).key()).toBe(lowest(a * d + c * b, b * d));
        expect(x.minus(y).key()).toBe(lowest(a * d - c * b, b * d));
        expect(x.times(y).key()).toBe(lowest(a * c, b * d));
        if (c !== 0n) expect(x.over(y).key()).toBe(lowest(a * d, b * c));
        expect(x.negated().key()).toBe(lowest(-a, b));
        expect(x.abs().key()).toBe(lowest(abs(a), abs(b)));
      }),
      { numRuns: 2000 },
    );
  });

  test("comparison", () => {
    fc.assert(
      fc.property(fraction, fraction, ([a, b], [c, d]) => {
        const difference = (a * d - c * b) * (b * d < 0n ? -1n : 1n);
        const sign = difference < 0n ? -1 : difference > 0n ? 1 : 0;
        const x = exact([a, b]);
        const y = exact([c, d]);
        expect(x.compare(y)).toBe(sign);
        expect([x.isBelow(y), x.isAtMost(y), x.isAbove(y), x.isAtLeast(y), x.equals(y)]).toEqual([
          sign < 0,
          sign <= 0,
          sign > 0,
          sign >= 0,
          sign === 0,
        ]);
        expect(Exact.least(x, y).isAtMost(Exact.greatest(x, y))).toBe(true);
        expect(x.equals(y)).toBe(x.key() === y.key());
      }),
      { numRuns: 2000 },
    );
  });

  test("a long row of operations stays equal to the fraction, whatever the inner form", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 5000 }), fc.constantFrom(1, 3, 7, 10, 100, 1000)), {
          minLength: 1,
          maxLength: 60,
        }),
        (steps) => {
          let n = 1n;
          let d = 1n;
          let x = Exact.one;
          for (const [top, bottom] of steps) {
            x = x.plus(Exact.ratio(top, bottom)).times(Exact.ratio(bottom, 7));
            [n, d] = [n * BigInt(bottom) + BigInt(top) * d, d * BigInt(bottom)];
            [n, d] = [n * BigInt(bottom), d * 7n];
          }
          expect(x.key()).toBe(lowest(n, d));
        },
      ),
    );
  });

  test("never a minus zero", () => {
    for (const zero of [
      Exact.of(-0),
      Exact.of(0).negated(),
      Exact.of(-5).times(Exact.zero),
      Exact.ratio(-0, 5),
      Exact.of("-0.0"),
    ]) {
      expect(zero.toText()).toBe("0");
      expect(zero.key()).toBe("0/1");
    }
  });
});

describe("rounding is half up, away from zero", () => {
  test("against decimal.js", () => {
    fc.assert(
      fc.property(
        decimalText,
        fc.integer({ min: 0, max: 8 }),
        fc.integer({ min: 1, max: 8 }),
        (text, places, digits) => {
          const x = Exact.of(text);
          const d = new D(text);
          expect(x.toText()).toBe(d.toFixed());
          expect(x.roundedTo(places).toText()).toBe(new D(d.toFixed(places)).toFixed());
          expect(x.roundedToDigits(digits).toText()).toBe(d.isZero() ? "0" : d.toSignificantDigits(digits).toFixed());
          expect(x.floor().toText()).toBe(d.floor().toFixed().replace("-0", "0"));
          expect(x.isWhole()).toBe(d.isInteger());
          expect(x.toDecimal().eq(d.toSignificantDigits(40))).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("multiples of a step lie on the step and on the right side", () => {
    fc.assert(
      fc.property(
        fraction,
        fc.tuple(fc.bigInt({ min: 1n, max: 1000n }), fc.bigInt({ min: 1n, max: 1000n })),
        (f, s) => {
          const x = exact(f);
          const step = exact(s);
          const half = step.over(Exact.of(2));
          expect(x.upTo(step).isAtLeast(x) && x.upTo(step).minus(x).isBelow(step)).toBe(true);
          expect(x.downTo(step).isAtMost(x) && x.minus(x.downTo(step)).isBelow(step)).toBe(true);
          const off = x.toNearest(step).abs().minus(x.abs());
          expect(off.isAtMost(half) && off.isAbove(half.negated())).toBe(true);
          expect(x.toNearest(step).over(step).isWhole()).toBe(true);
        },
      ),
    );
  });

  test.each([
    ["8.33", "0.2", "8.4"], // a 10 mL syringe marked every 0.2 mL
    ["8.3", "0.2", "8.4"],
    ["8.29", "0.2", "8.2"],
    ["-8.3", "0.2", "-8.4"],
  ])("%s read on a scale of %s is %s", (value, step, read) => {
    expect(readOnScale(Exact.of(value), Exact.of(step)).toText()).toBe(read);
  });

  test("named roundings", () => {
    expect(roundDose(Exact.of(1900), "to nearest", Exact.of(250)).toText()).toBe("2000");
    expect(roundDose(Exact.of(1900), "downward to", Exact.of(250)).toText()).toBe("1750");
    expect(roundDose(Exact.of(1751), "upward to", Exact.of(250)).toText()).toBe("2000");
    expect(wholeContainers(Exact.of(1501), Exact.of(500)).toText()).toBe("4");
    expect(agreesAsWritten(Exact.ratio(4000, 108), Exact.of("37.04"), 2)).toBe(true);
    expect(agreesAsWritten(Exact.ratio(4000, 108), Exact.of("37.03"), 2)).toBe(false);
  });
});

describe("text", () => {
  test.each([
    [Exact.ratio(1, 3), undefined, "0.3333"],
    [Exact.ratio(37037, 3), undefined, "12346"],
    [Exact.ratio(2, 3000), undefined, "0.0006667"],
    [Exact.ratio(1, 8), undefined, "0.125"],
    [Exact.ratio(1, 8), 2, "0.13"],
    [Exact.ratio(1, 3000), 2, "0.0003"],
    [Exact.of("1e-7"), undefined, "0.0000001"],
    [Exact.of("1e21"), undefined, "1000000000000000000000"],
    [Exact.of("-1.50"), undefined, "-1.5"],
  ])("case %#", (value, decimals, text) => {
    expect(value.toText(decimals)).toBe(text);
  });

  test("whatever is not a plain number throws", () => {
    for (const text of ["", " 1", "1,000", ".5", "1.", "1.2.3", "0x10", "NaN", "Infinity", "1e9999", "+1", "１"]) {
      expect(() => Exact.of(text), text).toThrow(RangeError);
    }
    for (const value of [0.1, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])
      expect(() => Exact.of(value)).toThrow(RangeError);
    expect(() => Exact.ratio(1, 0)).toThrow(RangeError);
    expect(() => Exact.one.over(Exact.zero)).toThrow(RangeError);
  });

  test("which fractions end", () => {
    expect(Exact.ratio(3, 40).decimalPlaces()).toBe(3);
    expect(Exact.ratio(1, 7).terminates()).toBe(false);
    expect(Exact.ratio(7, 7).terminates()).toBe(true);
  });
});

describe("a subclass that leads is asked from either side", () => {
  const asked: string[] = [];
  class Watched extends Exact {
    static watch(n: number): Watched {
      return new Watched(n, 1);
    }
    protected override get leads(): boolean {
      return true;
    }
    override compare(o: Exact): -1 | 0 | 1 {
      asked.push(`compare ${o.toText()}`);
      return super.compare(o);
    }
    override plus(o: Exact): Exact {
      asked.push(`plus ${o.toText()}`);
      return super.plus(o);
    }
  }

  test("comparison and sum with it on the right", () => {
    const five = Watched.watch(5);
    expect(Exact.of(7).isAbove(five)).toBe(true);
    expect(Exact.of(7).plus(five).toText()).toBe("12");
    expect(five.isZero()).toBe(false);
    expect(asked).toEqual(["compare 7", "plus 7", "compare 0"]);
  });
});
