/**
 * A number that carries how it depends on the inputs of an order, and remembers every decision that was taken on it. A run of
 * the bench with such numbers is the ordinary run at one point; what it decided there it would decide at every point at which
 * all the remembered comparisons come out the same. That set of points is one piece of the range.
 */
import { Exact } from "../quantities/exact.ts";
import { Polynomial } from "./polynomial.ts";

/** Signs that a polynomial may have, in one number. */
export type Signs = number;
export const below: Signs = 1;
export const zero: Signs = 2;
export const above: Signs = 4;

/** A polynomial keeps one of these signs as long as the run goes the same way. */
export interface Condition {
  polynomial: Polynomial;
  signs: Signs;
}

function signsOf(outcome: -1 | 0 | 1): Signs {
  return outcome < 0 ? below : outcome > 0 ? above : zero;
}

/** The same signs of the negated polynomial. */
function turned(signs: Signs): Signs {
  return (signs & zero) | (signs & below ? above : 0) | (signs & above ? below : 0);
}

/** Remembers decisions of one run. */
export class Trace {
  private readonly seen = new Map<string, Condition>();
  /** A decision was taken in a way that cannot be followed: the run speaks for its own point alone. */
  pinned = false;

  /** @param steps in which each input is given, counted from the point as well; undefined where any value may be */
  constructor(
    readonly point: readonly Exact[],
    readonly steps: readonly (Exact | undefined)[] = [],
  ) {}

  get conditions(): readonly Condition[] {
    return [...this.seen.values()];
  }

  /** The input of this number as a traced figure. */
  input(index: number): Exact {
    return new Traced(this.point[index]!, Polynomial.input(index), Polynomial.one, this);
  }

  decide(polynomial: Polynomial, signs: Signs): void {
    if (polynomial.isConstant) return;
    const key = polynomial.key();
    const known = this.seen.get(key);
    if (known) known.signs &= signs;
    else this.seen.set(key, { polynomial, signs });
  }
}

class Traced extends Exact {
  constructor(
    private readonly value: Exact,
    private readonly top: Polynomial,
    private readonly bottom: Polynomial,
    private readonly trace: Trace,
  ) {
    super(...Exact.fieldsOf(value));
  }

  protected override get leads(): boolean {
    return true;
  }

  override plain(): Exact {
    return this.value;
  }

  /** Figures that do not depend on an input any more are plain again. */
  private made(value: Exact, top: Polynomial, bottom: Polynomial): Exact {
    if (bottom.isConstant) {
      if (top.isConstant) return value;
      if (!bottom.equals(Polynomial.one)) {
        return new Traced(value, top.scaled(bottom.constantTerm.reciprocal()), Polynomial.one, this.trace);
      }
    } else if (top.isZero) return value;
    return new Traced(value, top, bottom, this.trace);
  }

  override plus(o: Exact): Exact {
    if (!(o instanceof Traced)) {
      const value = this.value.plus(o);
      return this.made(value, this.top.plus(this.bottom.scaled(o)), this.bottom);
    }
    const value = this.value.plus(o.value);
    if (this.bottom.equals(o.bottom)) return this.made(value, this.top.plus(o.top), this.bottom);
    const top = this.top.times(o.bottom).plus(o.top.times(this.bottom));
    return this.made(value, top, this.bottom.times(o.bottom));
  }

  override times(o: Exact): Exact {
    if (!(o instanceof Traced)) return this.made(this.value.times(o), this.top.scaled(o), this.bottom);
    const value = this.value.times(o.value);
    // What stands above in one and below in the other cancels: 4 g in x mL times x mL.
    if (this.top.equals(o.bottom)) return this.made(value, o.top, this.bottom);
    if (o.top.equals(this.bottom)) return this.made(value, this.top, o.bottom);
    return this.made(value, this.top.times(o.top), this.bottom.times(o.bottom));
  }

  override reciprocal(): Exact {
    this.isZero();
    // Throws where it is zero, as every number does.
    return this.made(this.value.reciprocal(), this.bottom, this.top);
  }

  override negated(): Exact {
    return this.made(this.value.negated(), this.top.scaled(Exact.of(-1)), this.bottom);
  }

  override compare(o: Exact): -1 | 0 | 1 {
    const outcome = this.value.compare(o.plain());
    this.decide(o, signsOf(outcome));
    return outcome;
  }

  override equals(o: Exact): boolean {
    return this.asked(o, zero);
  }

  override isBelow(o: Exact): boolean {
    return this.asked(o, below);
  }

  override isAtMost(o: Exact): boolean {
    return this.asked(o, below | zero);
  }

  override isAbove(o: Exact): boolean {
    return this.asked(o, above);
  }

  override isAtLeast(o: Exact): boolean {
    return this.asked(o, above | zero);
  }

  override isZero(): boolean {
    return this.asked(Exact.zero, zero);
  }

  override isPositive(): boolean {
    return this.asked(Exact.zero, above);
  }

  override isNegative(): boolean {
    return this.asked(Exact.zero, below);
  }

  /** Whether the sign of the difference is one of these; remembers that it is, or that it is not. */
  private asked(o: Exact, signs: Signs): boolean {
    const outcome = (signsOf(this.value.compare(o.plain())) & signs) !== 0;
    this.decide(o, outcome ? signs : (below | zero | above) & ~signs);
    return outcome;
  }

  private decide(o: Exact, signs: Signs): void {
    const difference = this.minusOf(o);
    // The sign of a quotient is that of its top times that of its bottom, which is no zero where the figure exists.
    const bottom = signsOf(this.signOf(difference.bottom));
    this.trace.decide(difference.bottom, bottom);
    this.trace.decide(difference.top, bottom === below ? turned(signs) : signs);
  }

  private minusOf(o: Exact): { top: Polynomial; bottom: Polynomial } {
    if (!(o instanceof Traced)) return { top: this.top.minus(this.bottom.scaled(o)), bottom: this.bottom };
    if (this.bottom.equals(o.bottom)) return { top: this.top.minus(o.top), bottom: this.bottom };
    return {
      top: this.top.times(o.bottom).minus(o.top.times(this.bottom)),
      bottom: this.bottom.times(o.bottom),
    };
  }

  private signOf(polynomial: Polynomial): -1 | 0 | 1 {
    return polynomial.at(this.trace.point).compare(Exact.zero);
  }

  override floor(): Exact {
    const whole = this.value.floor();
    // 0.2 mL/kg on marks of 0.2 mL, in steps of 1 kg: the fraction is the same at every step, and no decision is taken.
    if (this.bottom.equals(Polynomial.one) && this.top.changesByWhole(this.trace.steps))
      return this.minus(this.value.minus(whole));
    this.isAtLeast(whole);
    this.isBelow(whole.plus(Exact.one));
    return whole;
  }

  override roundedToDigits(significant: number): Exact {
    const rounded = this.value.roundedToDigits(significant);
    this.trace.pinned = true;
    return rounded;
  }

  // Text and decimals are for showing; who decides on one decides for this point alone.

  override decimalPlaces(): number | undefined {
    this.trace.pinned = true;
    return this.value.decimalPlaces();
  }

  override toDecimal() {
    this.trace.pinned = true;
    return this.value.toDecimal();
  }

  override toText(maxDecimals?: number): string {
    this.trace.pinned = true;
    return this.value.toText(maxDecimals);
  }

  override key(): string {
    this.trace.pinned = true;
    return this.value.key();
  }
}
