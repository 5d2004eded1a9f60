/**
 * The exact rational number that every amount is made of.
 *
 * Invariants:
 * - A value is always exact; only `roundedTo…`, `toNearest` and their like round, and they say so in their name.
 * - Numerator and denominator are kept as plain whole numbers below 2^53 (fast) and as BigInt beyond. They need not be
 *   in lowest terms; comparison, equality and `key` are exact all the same.
 * - Nothing outside this file reads numerator or denominator. Every operation goes through a method of its left operand,
 *   so that a subclass can carry more than a value (a proof over a range records the comparisons made). Such a subclass
 *   answers `leads` with true; then it is asked even where it stands on the right of a plain number.
 *
 * The file is longer than most because the class may not be split without opening its fields.
 */
import { Decimal } from "decimal.js";

const limit = Number.MAX_SAFE_INTEGER;

/** 40 digits, half up: for showing and for comparing with outside figures, never for calculating a dose. */
const Decimal40 = Decimal.clone({ precision: 40, rounding: Decimal.ROUND_HALF_UP });

/** Decimal places beyond which a written exponent cannot be a measure of anything; keeps `1e999999999` from filling the memory. */
const largestExponent = 400;

interface Pair {
  n: bigint;
  d: bigint;
}

function gcdOfNumbers(first: number, second: number): number {
  let a = first < 0 ? -first : first;
  let b = second;
  while (b !== 0) {
    const rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

function gcdOfBig(first: bigint, second: bigint): bigint {
  let a = first < 0n ? -first : first;
  let b = second;
  while (b !== 0n) {
    const rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

/** A product or sum of whole numbers below 2^53 that still lies below 2^53 was not rounded. NaN answers false. */
function isSafe(value: number): boolean {
  return value <= limit && value >= -limit;
}

export class Exact {
  static readonly zero: Exact = new Exact(0, 1);
  static readonly one: Exact = new Exact(1, 1);

  // While `big` is set, n and d are NaN, so that the fast path fails its own safety test without asking.
  private n: number;
  private d: number;
  private big: Pair | undefined;

  protected constructor(n: number, d: number, big?: Pair) {
    this.n = n;
    this.d = d;
    this.big = big;
  }

  /** A safe whole number, a BigInt, or a plain decimal text such as `-0.25` or `1.5e-3`. Throws RangeError on anything else. */
  static of(value: number | string | bigint | Exact): Exact {
    if (value instanceof Exact) return value;
    if (typeof value === "bigint") return Exact.fromBig(value, 1n);
    if (typeof value === "string") return Exact.fromText(value);
    if (!Number.isSafeInteger(value)) throw new RangeError(`${value} is not a whole number that is held exactly.`);
    return new Exact(value + 0, 1);
  }

  /** n divided by d. Throws RangeError when d is zero or a number is not a safe whole number. */
  static ratio(n: number | bigint, d: number | bigint): Exact {
    if (Number.isSafeInteger(n) && Number.isSafeInteger(d) && (d as number) > 0)
      return new Exact((n as number) + 0, d as number);
    return Exact.fromBig(BigInt(n), BigInt(d));
  }

  static least(first: Exact, ...others: Exact[]): Exact {
    return others.reduce((least, each) => (each.isBelow(least) ? each : least), first);
  }

  static greatest(first: Exact, ...others: Exact[]): Exact {
    return others.reduce((greatest, each) => (each.isAbove(greatest) ? each : greatest), first);
  }

  private static fromBig(n: bigint, d: bigint): Exact {
    if (d === 0n) throw new RangeError("A division by zero has no value.");
    const divisor = gcdOfBig(n, d < 0n ? -d : d);
    const sign = d < 0n ? -1n : 1n;
    const top = (sign * n) / divisor;
    const bottom = (sign * d) / divisor;
    if (top <= limit && top >= -limit && bottom <= limit) return new Exact(Number(top), Number(bottom));
    return new Exact(Number.NaN, Number.NaN, { n: top, d: bottom });
  }

  private static fromText(text: string): Exact {
    const parts = /^(-?)(\d+)(?:\.(\d+))?(?:[eE]([+-]?\d+))?$/.exec(text);
    if (!parts) throw new RangeError(`"${text}" is not a plain decimal number.`);
    const [, sign, whole = "0", fraction = "", power = "0"] = parts;
    const exponent = Number(power) - fraction.length;
    if (Math.abs(Number(power)) > largestExponent) throw new RangeError(`"${text}" is beyond any measure.`);
    const digits = BigInt(whole + fraction) * (sign === "-" ? -1n : 1n);
    return exponent < 0
      ? Exact.fromBig(digits, 10n ** BigInt(-exponent))
      : Exact.fromBig(digits * 10n ** BigInt(exponent), 1n);
  }

  /** True in a subclass that must be asked even from the right-hand side. */
  protected get leads(): boolean {
    return false;
  }

  /** The value alone, without what a subclass carries beside it: for showing, where no decision hangs on it. */
  plain(): Exact {
    return this;
  }

  /** What a subclass hands to its own constructor to stand for `value`. */
  protected static fieldsOf(value: Exact): [number, number, Pair | undefined] {
    return [value.n, value.d, value.big];
  }

  private pair(): Pair {
    return this.big ?? { n: BigInt(this.n), d: BigInt(this.d) };
  }

  /** Lowest terms, in place: the value does not change. True when that made the two numbers smaller. */
  private reduce(): boolean {
    if (this.big) return false; // fromBig has reduced it
    const divisor = gcdOfNumbers(this.n, this.d);
    if (divisor === 1) return false;
    this.n /= divisor;
    this.d /= divisor;
    return true;
  }

  plus(o: Exact): Exact {
    if (o.leads && !this.leads) return o.plus(this);
    if (this.d === o.d) {
      const sum = this.n + o.n;
      if (isSafe(sum)) return new Exact(sum, this.d);
    }
    const left = this.n * o.d;
    const right = o.n * this.d;
    const bottom = this.d * o.d;
    if (isSafe(left) && isSafe(right) && isSafe(left + right) && isSafe(bottom)) return new Exact(left + right, bottom);
    if (this.reduce() || o.reduce()) return this.plus(o);
    const a = this.pair();
    const b = o.pair();
    return Exact.fromBig(a.n * b.d + b.n * a.d, a.d * b.d);
  }

  minus(o: Exact): Exact {
    return this.plus(o.negated());
  }

  times(o: Exact): Exact {
    if (o.leads && !this.leads) return o.times(this);
    const top = this.n * o.n;
    const bottom = this.d * o.d;
    if (isSafe(top) && isSafe(bottom)) return new Exact(top + 0, bottom);
    if (this.reduce() || o.reduce()) return this.times(o);
    const a = this.pair();
    const b = o.pair();
    return Exact.fromBig(a.n * b.n, a.d * b.d);
  }

  /** Throws RangeError when `o` is zero; callers test first. */
  over(o: Exact): Exact {
    return this.times(o.reciprocal());
  }

  /** 1 divided by this. Throws RangeError when this is zero. */
  reciprocal(): Exact {
    if (this.n > 0) return new Exact(this.d, this.n);
    const own = this.pair();
    return Exact.fromBig(own.d, own.n);
  }

  negated(): Exact {
    if (this.big) return new Exact(Number.NaN, Number.NaN, { n: -this.big.n, d: this.big.d });
    return new Exact(0 - this.n, this.d);
  }

  abs(): Exact {
    return this.isNegative() ? this.negated() : this;
  }

  compare(o: Exact): -1 | 0 | 1 {
    if (o.leads && !this.leads) return (0 - o.compare(this)) as -1 | 0 | 1;
    const left = this.n * o.d;
    const right = o.n * this.d;
    if (isSafe(left) && isSafe(right)) return left < right ? -1 : left > right ? 1 : 0;
    const a = this.pair();
    const b = o.pair();
    const bigLeft = a.n * b.d;
    const bigRight = b.n * a.d;
    return bigLeft < bigRight ? -1 : bigLeft > bigRight ? 1 : 0;
  }

  equals(o: Exact): boolean {
    if (o.leads && !this.leads) return o.equals(this);
    return this.compare(o) === 0;
  }

  isBelow(o: Exact): boolean {
    if (o.leads && !this.leads) return o.isAbove(this);
    return this.compare(o) < 0;
  }

  isAtMost(o: Exact): boolean {
    if (o.leads && !this.leads) return o.isAtLeast(this);
    return this.compare(o) <= 0;
  }

  isAbove(o: Exact): boolean {
    if (o.leads && !this.leads) return o.isBelow(this);
    return this.compare(o) > 0;
  }

  isAtLeast(o: Exact): boolean {
    if (o.leads && !this.leads) return o.isAtMost(this);
    return this.compare(o) >= 0;
  }

  isZero(): boolean {
    return this.compare(Exact.zero) === 0;
  }

  isPositive(): boolean {
    return this.compare(Exact.zero) > 0;
  }

  isNegative(): boolean {
    return this.compare(Exact.zero) < 0;
  }

  isWhole(): boolean {
    return this.equals(this.floor());
  }

  /** The greatest whole number not above this. */
  floor(): Exact {
    if (!this.big) {
      const rest = this.n % this.d; // takes the sign of n; n less its rest is an exact multiple of d
      const whole = (this.n - rest) / this.d;
      return new Exact(rest < 0 ? whole - 1 : whole + 0, 1);
    }
    const { n, d } = this.pair();
    const towardsZero = n / d;
    return Exact.fromBig(n < 0n && towardsZero * d !== n ? towardsZero - 1n : towardsZero, 1n);
  }

  /** The smallest whole number not below this. */
  ceil(): Exact {
    return this.negated().floor().negated();
  }

  /** The nearest multiple of `step` (above zero); half way goes up, for negatives away from zero, as a person does it. */
  toNearest(step: Exact): Exact {
    const steps = this.over(step);
    const half = Exact.ratio(1, 2);
    const whole = steps.isNegative() ? steps.minus(half).ceil() : steps.plus(half).floor();
    return whole.times(step);
  }

  /** The next multiple of `step` at or above this. */
  upTo(step: Exact): Exact {
    return this.over(step).ceil().times(step);
  }

  /** The next multiple of `step` at or below this. */
  downTo(step: Exact): Exact {
    return this.over(step).floor().times(step);
  }

  /** Half up to so many decimals; negative counts round to tens, hundreds, … */
  roundedTo(decimals: number): Exact {
    return this.toNearest(decimals < 0 ? Exact.of(10n ** BigInt(-decimals)) : Exact.ratio(1n, 10n ** BigInt(decimals)));
  }

  /** Half up to so many significant digits (at least 1). */
  roundedToDigits(significant: number): Exact {
    if (this.isZero()) return this;
    return this.roundedTo(significant - 1 - this.exponent());
  }

  /** Power of ten of the first significant digit: 0 for 1 to below 10, -1 for 0.1 to below 1. Not for zero. */
  private exponent(): number {
    const { n, d } = this.pair();
    const top = n < 0n ? -n : n;
    const guess = top.toString().length - d.toString().length;
    const reaches = guess >= 0 ? top >= d * 10n ** BigInt(guess) : top * 10n ** BigInt(-guess) >= d;
    return reaches ? guess : guess - 1;
  }

  /** True when it can be written as a decimal with an end. */
  terminates(): boolean {
    return this.decimalPlaces() !== undefined;
  }

  /** Decimals needed to write it out; undefined when no number of them is enough. */
  decimalPlaces(): number | undefined {
    this.reduce();
    let rest = this.pair().d;
    let twos = 0;
    let fives = 0;
    for (; rest % 2n === 0n; rest /= 2n) twos += 1;
    for (; rest % 5n === 0n; rest /= 5n) fives += 1;
    return rest === 1n ? Math.max(twos, fives) : undefined;
  }

  /** To 40 digits, half up. */
  toDecimal(): Decimal {
    const { n, d } = this.pair();
    return new Decimal40(n.toString()).div(d.toString());
  }

  /**
   * Plain decimal, `.` as the point, thousands not grouped, no exponent, no trailing zero.
   * Without `maxDecimals`: all digits if they end; otherwise four significant digits, and never fewer than the whole part.
   * With it: half up to at most so many decimals, but what is not zero never shows as 0 (it keeps one significant digit).
   */
  toText(maxDecimals?: number): string {
    const places = this.decimalPlaces();
    if (places !== undefined && (maxDecimals === undefined || places <= maxDecimals)) return this.written(places);
    const wanted = maxDecimals ?? Math.max(0, 3 - this.exponent());
    return this.roundedTo(Math.max(wanted, Math.min(-this.exponent(), 400))).writtenShort();
  }

  private writtenShort(): string {
    return this.written(this.decimalPlaces() ?? 0);
  }

  private written(places: number): string {
    const { n, d } = this.pair();
    const digits = ((n < 0n ? -n : n) * 10n ** BigInt(places)) / d;
    const padded = digits.toString().padStart(places + 1, "0");
    const sign = n < 0n ? "-" : "";
    if (places === 0) return sign + padded;
    return `${sign}${padded.slice(0, -places)}.${padded.slice(-places)}`;
  }

  /** Canonical `n/d` in lowest terms, for hashing and as a map key. */
  key(): string {
    this.reduce();
    return this.big ? `${this.big.n}/${this.big.d}` : `${this.n}/${this.d}`;
  }
}
