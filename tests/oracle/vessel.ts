/**
 * A vessel by where its content comes from: so many mL of each liquid stock, so many vials' worth of each powder. All that is well
 * mixed is a sum over these shares; a part taken of it takes the same part of each.
 */
import { broughtBy, displacementOf, ionBroughtBy, named } from "./facts.ts";
import { Fraction } from "./fraction.ts";
import type { Program } from "./program.ts";

/** Stock → mL of it, or vials of it. */
export type Shares = ReadonlyMap<string, Fraction>;

export const nothing: Shares = new Map();

export function sum(first: Shares, second: Shares): Shares {
  const all = new Map(first);
  for (const [stock, share] of second) all.set(stock, (all.get(stock) ?? Fraction.zero).plus(share));
  return all;
}

export function part(whole: Shares, factor: Fraction): Shares {
  return new Map([...whole].map(([stock, share]) => [stock, share.times(factor)]));
}

/** A program with what its stocks bring, worked out once. */
export class Contents {
  private readonly program: Program;
  private readonly each = new Map<string, { volume: Fraction; amount: Fraction }>();

  constructor(program: Program) {
    this.program = program;
    for (const stock of program.stocks) {
      const volume = stock.powder ? displacementOf(stock) : Fraction.one;
      this.each.set(stock.name, { volume, amount: broughtBy(program, stock) });
    }
  }

  volume(of: Shares): Fraction {
    let all = Fraction.zero;
    for (const [stock, share] of of) all = all.plus(share.times(this.each.get(stock)!.volume));
    return all;
  }

  amount(of: Shares, drug: string): Fraction {
    let all = Fraction.zero;
    for (const [stock, share] of of) {
      if (named(this.program.stocks, stock).drug === drug) all = all.plus(share.times(this.each.get(stock)!.amount));
    }
    return all;
  }

  /** mL of a fluid, whatever bag or vial it came from. */
  fluid(of: Shares, fluid: string): Fraction {
    let all = Fraction.zero;
    for (const [stock, share] of of) if (named(this.program.stocks, stock).fluid === fluid) all = all.plus(share);
    return all;
  }

  /** mmol. */
  ion(of: Shares, ion: string): Fraction {
    let all = Fraction.zero;
    for (const [stock, share] of of) {
      all = all.plus(share.times(ionBroughtBy(this.program, named(this.program.stocks, stock), ion)));
    }
    return all;
  }

  /** mOsm; undefined where a stock in it does not say. */
  osmoles(of: Shares): Fraction | undefined {
    let all = Fraction.zero;
    for (const [name, share] of of) {
      const stock = named(this.program.stocks, name);
      const stated = stock.fluid ? named(this.program.fluids, stock.fluid).osmolarity : stock.osmolarity;
      if (stated === undefined || stock.powder) return undefined;
      all = all.plus(share.times(Fraction.ratio(BigInt(stated), 1000n)));
    }
    return all;
  }

  drugs(of: Shares): string[] {
    const names = [...of].flatMap(([stock, share]) =>
      share.isZero ? [] : (named(this.program.stocks, stock).drug ?? []),
    );
    return [...new Set(names)];
  }
}
