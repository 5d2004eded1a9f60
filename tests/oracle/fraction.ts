/** Exact fractions of the oracle's own: two whole numbers and nothing of the language's arithmetic. */
export class Fraction {
  static readonly zero = new Fraction(0n, 1n);
  static readonly one = new Fraction(1n, 1n);
  readonly n: bigint;
  /** Above zero. */
  readonly d: bigint;

  private constructor(n: bigint, d: bigint) {
    this.n = n;
    this.d = d;
  }

  static ratio(n: bigint, d: bigint): Fraction {
    if (d === 0n) throw new RangeError("a fraction of nothing");
    const sign = d < 0n ? -1n : 1n;
    let [a, b] = [n < 0n ? -n : n, d * sign];
    while (b !== 0n) [a, b] = [b, a % b];
    return a === 0n ? Fraction.zero : new Fraction((n * sign) / a, (d * sign) / a);
  }

  /** A whole number, or a plain decimal such as `-0.25`. */
  static of(value: number | string): Fraction {
    const [, sign, whole = "", part = ""] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(String(value)) ?? [];
    if (sign === undefined) throw new RangeError(`${value} is no plain decimal`);
    const size = BigInt(whole + part);
    return Fraction.ratio(sign === "-" ? -size : size, 10n ** BigInt(part.length));
  }

  plus(o: Fraction): Fraction {
    return Fraction.ratio(this.n * o.d + o.n * this.d, this.d * o.d);
  }
  minus(o: Fraction): Fraction {
    return Fraction.ratio(this.n * o.d - o.n * this.d, this.d * o.d);
  }
  times(o: Fraction): Fraction {
    return Fraction.ratio(this.n * o.n, this.d * o.d);
  }
  over(o: Fraction): Fraction {
    return Fraction.ratio(this.n * o.d, this.d * o.n);
  }
  /** Below zero, zero, or above zero as this is less than, equal to or more than the other. */
  against(o: Fraction): number {
    const left = this.n * o.d;
    const right = o.n * this.d;
    return left < right ? -1 : left > right ? 1 : 0;
  }
  is(o: Fraction): boolean {
    return this.n === o.n && this.d === o.d;
  }
  get isZero(): boolean {
    return this.n === 0n;
  }
  get isPositive(): boolean {
    return this.n > 0n;
  }
  least(o: Fraction): Fraction {
    return this.against(o) <= 0 ? this : o;
  }

  /** The nearest multiple of the step, the upper one where it lies in the middle. Not for values below zero. */
  nearest(step: Fraction): Fraction {
    const steps = this.over(step);
    return step.times(Fraction.ratio((2n * steps.n + steps.d) / (2n * steps.d), 1n));
  }

  /** Rounded half up to so many figures that count. For values above zero. */
  toFigures(figures: number): Fraction {
    let power = Fraction.one;
    const ten = Fraction.of(10);
    while (this.against(power.times(ten)) >= 0) power = power.times(ten);
    while (this.against(power) < 0) power = power.over(ten);
    for (let i = 1; i < figures; i++) power = power.over(ten);
    return this.nearest(power);
  }

  /** As a plain decimal; undefined where it has no end. */
  decimal(): string | undefined {
    let [twos, fives, rest] = [0, 0, this.d];
    for (; rest % 2n === 0n; rest /= 2n) twos++;
    for (; rest % 5n === 0n; rest /= 5n) fives++;
    if (rest !== 1n) return undefined;
    const places = Math.max(twos, fives);
    const digits = ((this.n < 0n ? -this.n : this.n) * 10n ** BigInt(places)) / this.d;
    const text = digits.toString().padStart(places + 1, "0");
    const whole = text.slice(0, text.length - places);
    return `${this.n < 0n ? "-" : ""}${whole}${places > 0 ? `.${text.slice(-places)}` : ""}`;
  }

  toString(): string {
    return this.decimal() ?? `${this.n}/${this.d}`;
  }
}
