/**
 * A well-mixed liquid: its volume (mL), the amount of each solute in the solute's own base unit (g, mmol, mEq, units of
 * activity, mL), and how much of it came from each fluid and stock. Values are never changed in place.
 *
 * Invariant: taking a part and what it leaves add up exactly to what was there.
 */
import { Exact } from "../quantities/exact.ts";

/** What an amount of a solute is counted in. */
export type AmountKind = "mass" | "moles" | "equivalents" | "activity" | "volume";

export interface Liquid {
  readonly volume: Exact;
  /** Solute name → amount in the base unit of its kind. */
  readonly amounts: ReadonlyMap<string, Exact>;
  /** Fluid or drug vehicle name → volume that came from it. */
  readonly fluids: ReadonlyMap<string, Exact>;
  /** Names of drugs that reached it, in the order in which they did. */
  readonly drugs: readonly string[];
  /** Stocks that reached it. */
  readonly stocks: readonly string[];
  /** Came from a glass ampoule and has passed no filter since that holds splinters back. */
  readonly glass: boolean;
  /** Drug → pore (micrometre) of the finest filter that all of it here has passed; absent where some of it has passed none. */
  readonly pores: ReadonlyMap<string, Exact>;
}

const nothing: ReadonlyMap<string, Exact> = new Map();

/** Of a liquid that has passed no filter. */
export const unfiltered = nothing;

export const noLiquid: Liquid = {
  volume: Exact.zero,
  amounts: nothing,
  fluids: nothing,
  drugs: [],
  stocks: [],
  glass: false,
  pores: unfiltered,
};

/** The part of `liquid` with the volume `volume`, and the rest. `volume` is at most the whole and above zero. */
export function takePart(liquid: Liquid, volume: Exact): { taken: Liquid; left: Liquid } {
  if (volume.equals(liquid.volume))
    return { taken: liquid, left: { ...noLiquid, drugs: liquid.drugs, stocks: liquid.stocks } };
  const share = (amount: Exact) => amount.times(volume).over(liquid.volume);
  const taken = new Map<string, Exact>();
  const left = new Map<string, Exact>();
  for (const [name, amount] of liquid.amounts) {
    const part = share(amount);
    taken.set(name, part);
    left.set(name, amount.minus(part));
  }
  const takenFluids = new Map<string, Exact>();
  const leftFluids = new Map<string, Exact>();
  for (const [name, amount] of liquid.fluids) {
    const part = share(amount);
    takenFluids.set(name, part);
    leftFluids.set(name, amount.minus(part));
  }
  return {
    taken: { ...liquid, volume, amounts: taken, fluids: takenFluids },
    left: { ...liquid, volume: liquid.volume.minus(volume), amounts: left, fluids: leftFluids },
  };
}

/** The same liquid, more or less of it. */
export function scaled(liquid: Liquid, by: Exact): Liquid {
  const each = (amounts: ReadonlyMap<string, Exact>) => new Map([...amounts].map(([name, a]) => [name, a.times(by)]));
  return { ...liquid, volume: liquid.volume.times(by), amounts: each(liquid.amounts), fluids: each(liquid.fluids) };
}

/** The same volume with its solutes stronger or weaker. */
export function strengthened(liquid: Liquid, by: Exact): Liquid {
  return { ...liquid, amounts: new Map([...liquid.amounts].map(([name, a]) => [name, a.times(by)])) };
}

export function pour(into: Liquid, added: Liquid): Liquid {
  if (into.volume.isZero() && into.drugs.length === 0) return added;
  return {
    volume: into.volume.plus(added.volume),
    amounts: sum(into.amounts, added.amounts),
    fluids: sum(into.fluids, added.fluids),
    drugs: union(into.drugs, added.drugs),
    stocks: union(into.stocks, added.stocks),
    glass: into.glass || added.glass,
    pores: poresOfBoth(into, added),
  };
}

/** `liquid` once it has passed a filter of this pore. */
export function filtered(liquid: Liquid, pore: Exact): Liquid {
  const finest = (before: Exact | undefined) => (before ? Exact.least(before, pore) : pore);
  return { ...liquid, pores: new Map(liquid.drugs.map((drug) => [drug, finest(liquid.pores.get(drug))])) };
}

/** Of a drug in both, the coarser of the two; where one of them has passed no filter, that part has not. */
function poresOfBoth(into: Liquid, added: Liquid): ReadonlyMap<string, Exact> {
  if (into.pores.size === 0 && added.pores.size === 0) return unfiltered;
  if (!into.volume.isPositive()) return added.pores;
  const both = new Map<string, Exact>();
  for (const drug of union(into.drugs, added.drugs)) {
    const [before, now] = [into.pores.get(drug), added.pores.get(drug)];
    if (before && now) both.set(drug, Exact.greatest(before, now));
    else if (before && !added.drugs.includes(drug)) both.set(drug, before);
    else if (now && !into.drugs.includes(drug)) both.set(drug, now);
  }
  return both;
}

function sum(a: ReadonlyMap<string, Exact>, b: ReadonlyMap<string, Exact>): ReadonlyMap<string, Exact> {
  const total = new Map(a);
  for (const [name, amount] of b) {
    const before = total.get(name);
    total.set(name, before ? before.plus(amount) : amount);
  }
  return total;
}

function union(a: readonly string[], b: readonly string[]): readonly string[] {
  const extra = b.filter((name) => !a.includes(name));
  return extra.length === 0 ? a : [...a, ...extra];
}

/** Both from one and the same product alone, or one solution as strong as the other: nothing is left to mix. */
export function isAlike(held: Liquid, added: Liquid): boolean {
  const [product] = held.stocks;
  if (held.stocks.length === 1 && added.stocks.length === 1 && added.stocks[0] === product) return true;
  return isStrengthKnown(held, added) && isAsStrong(held, added, "amounts") && isAsStrong(held, added, "fluids");
}

/** The same drugs in both, of all of which it is known how much there is. */
function isStrengthKnown(held: Liquid, added: Liquid): boolean {
  if (held.drugs.length !== added.drugs.length) return false;
  return held.drugs.every((drug) => added.drugs.includes(drug) && held.amounts.has(drug) && added.amounts.has(drug));
}

function isAsStrong(one: Liquid, other: Liquid, what: "amounts" | "fluids"): boolean {
  if (one[what].size !== other[what].size) return false;
  return [...one[what]].every(([name, amount]) => {
    const others = other[what].get(name);
    return others !== undefined && amount.times(other.volume).equals(others.times(one.volume));
  });
}
