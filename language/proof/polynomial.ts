/**
 * Polynomials with exact coefficients in a few inputs of an order. A figure of the bench is a quotient of two of them between
 * its break points, and a comparison of two figures is the sign of one.
 */
import { Exact } from "../quantities/exact.ts";

/** Powers of the inputs in one number, sixteen to an input: 1 is the first input, 16 the second, 17 their product. */
type Monomial = number;

const base = 16;
/** More inputs than this are not traced; powers beyond 15 do not come up, and are refused. */
export const mostInputs = 5;

export class Polynomial {
  static readonly zero = new Polynomial([], []);
  static readonly one = new Polynomial([0], [Exact.one]);

  /** Monomials in rising order, none with a zero coefficient. */
  private constructor(
    private readonly monomials: readonly Monomial[],
    private readonly coefficients: readonly Exact[],
  ) {}

  static constant(value: Exact): Polynomial {
    return value.isZero() ? Polynomial.zero : new Polynomial([0], [value]);
  }

  /** The input of this number, from 0. */
  static input(index: number): Polynomial {
    return new Polynomial([base ** index], [Exact.one]);
  }

  get isZero(): boolean {
    return this.monomials.length === 0;
  }

  get isConstant(): boolean {
    return this.monomials.length === 0 || (this.monomials.length === 1 && this.monomials[0] === 0);
  }

  /** The coefficient of the constant term. */
  get constantTerm(): Exact {
    return this.monomials[0] === 0 ? this.coefficients[0]! : Exact.zero;
  }

  plus(other: Polynomial): Polynomial {
    if (this.isZero) return other;
    if (other.isZero) return this;
    const monomials: Monomial[] = [];
    const coefficients: Exact[] = [];
    let i = 0;
    let j = 0;
    while (i < this.monomials.length || j < other.monomials.length) {
      const a = this.monomials[i] ?? Number.POSITIVE_INFINITY;
      const b = other.monomials[j] ?? Number.POSITIVE_INFINITY;
      const at = Math.min(a, b);
      let sum = a === at ? this.coefficients[i++]! : other.coefficients[j]!;
      if (b === at) {
        if (a === at) sum = sum.plus(other.coefficients[j]!);
        j++;
      }
      if (sum.isZero()) continue;
      monomials.push(at);
      coefficients.push(sum);
    }
    return new Polynomial(monomials, coefficients);
  }

  minus(other: Polynomial): Polynomial {
    return this.plus(other.scaled(Exact.of(-1)));
  }

  scaled(by: Exact): Polynomial {
    if (by.isZero()) return Polynomial.zero;
    return new Polynomial(
      this.monomials,
      this.coefficients.map((c) => c.times(by)),
    );
  }

  /** @throws RangeError beyond the fifteenth power of an input */
  times(other: Polynomial): Polynomial {
    if (this.isConstant) return other.scaled(this.constantTerm);
    if (other.isConstant) return this.scaled(other.constantTerm);
    let product = Polynomial.zero;
    for (const [k, monomial] of this.monomials.entries()) {
      const shifted = other.monomials.map((m) => multiplied(m, monomial));
      const scaled = other.coefficients.map((c) => c.times(this.coefficients[k]!));
      product = product.plus(new Polynomial(shifted, scaled));
    }
    return product;
  }

  equals(other: Polynomial): boolean {
    return (
      this.monomials.length === other.monomials.length &&
      this.monomials.every((m, k) => m === other.monomials[k] && this.coefficients[k]!.equals(other.coefficients[k]!))
    );
  }

  /** The value at a point, one figure an input. */
  at(point: readonly Exact[]): Exact {
    let sum = Exact.zero;
    for (const [k, monomial] of this.monomials.entries()) {
      let term = this.coefficients[k]!;
      for (const [input, power] of powersOf(monomial)) {
        for (let n = 0; n < power; n++) term = term.times(point[input]!);
      }
      sum = sum.plus(term);
    }
    return sum;
  }

  /** Inputs that occur. */
  inputs(): number[] {
    return [...new Set(this.monomials.flatMap((m) => powersOf(m).map(([input]) => input)))].sort();
  }

  /**
   * Whether it changes by whole numbers alone from one step of each input to the next, so that its fraction is the same at all of
   * them: of a sum of inputs it can be told. @param steps by input; undefined where any value may be given
   */
  changesByWhole(steps: readonly (Exact | undefined)[]): boolean {
    return this.monomials.every((monomial, k) => {
      const [[input, power] = [], ...more] = powersOf(monomial);
      if (input === undefined) return true;
      const step = steps[input];
      return power === 1 && more.length === 0 && step !== undefined && this.coefficients[k]!.times(step).isWhole();
    });
  }

  /** Coefficients by power of the only input that occurs, from the constant up. */
  inOne(input: number): Exact[] {
    const unit = base ** input;
    const list: Exact[] = [];
    for (const [k, monomial] of this.monomials.entries()) {
      const power = monomial / unit;
      while (list.length <= power) list.push(Exact.zero);
      list[power] = this.coefficients[k]!;
    }
    return list;
  }

  /** Least and greatest value that interval arithmetic gives over a box: never narrower than the truth. */
  over(box: readonly { low: Exact; high: Exact }[]): { low: Exact; high: Exact } {
    let low = Exact.zero;
    let high = Exact.zero;
    for (const [k, monomial] of this.monomials.entries()) {
      let term = { low: this.coefficients[k]!, high: this.coefficients[k]! };
      for (const [input, power] of powersOf(monomial)) {
        for (let n = 0; n < power; n++) term = product(term, box[input]!);
      }
      low = low.plus(term.low);
      high = high.plus(term.high);
    }
    return { low, high };
  }

  /** Tells polynomials apart that differ, up to a positive factor. */
  key(): string {
    const lead = this.coefficients.at(-1)?.abs() ?? Exact.one;
    return this.monomials.map((m, k) => `${m}:${this.coefficients[k]!.over(lead).key()}`).join(" ");
  }
}

function powersOf(monomial: Monomial): [input: number, power: number][] {
  const powers: [number, number][] = [];
  let rest = monomial;
  for (let input = 0; rest > 0; input++) {
    const power = rest % base;
    if (power > 0) powers.push([input, power]);
    rest = (rest - power) / base;
  }
  return powers;
}

function multiplied(a: Monomial, b: Monomial): Monomial {
  let unit = 1;
  for (let input = 0; input < mostInputs; input++) {
    const power = (Math.floor(a / unit) % base) + (Math.floor(b / unit) % base);
    if (power >= base) throw new RangeError("A figure depends on an input in a power beyond the fifteenth.");
    unit *= base;
  }
  return a + b;
}

function product(a: { low: Exact; high: Exact }, b: { low: Exact; high: Exact }): { low: Exact; high: Exact } {
  const ends = [a.low.times(b.low), a.low.times(b.high), a.high.times(b.low), a.high.times(b.high)] as const;
  return { low: Exact.least(...ends), high: Exact.greatest(...ends) };
}
