/**
 * What a bought container holds beyond its label. Of a container given or emptied whole it changes no dose. Where a drug was added to it
 * and a part is then taken out, all of it counts in the strength: a declared overfill is counted at its mean from the start, as the person
 * who works out the sheet would do; one that nobody declared can only be presumed, to ask how far it would matter.
 */
import type { Stock } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { volumeOf } from "../quantities/quantity.ts";
import type { Bench } from "./bench.ts";
import type { Liquid } from "./liquid.ts";
import type { Vessel } from "./things.ts";

/** How much beyond the label a container with declared overfill holds in this run. */
export type Overfill = "label" | "least" | "most";

/** What a run knows of overfill beside what the stocks declare. */
export interface OverfillKnown {
  which: Overfill;
  /** Materials whose declared overfill counts by the label too, at its mean. */
  counted: ReadonlySet<string>;
  /** Materials whose stock declares none and is presumed to hold the most that bags were found to hold. */
  presumed: ReadonlySet<string>;
}

/**
 * Bags were found to hold 3 % to 20 % more than their label (ISMP Canada 2013, "Overfill needs to be taken into account for IV
 * chemotherapy").
 */
export const mostFoundInBags = Exact.ratio(20, 100);

/** mL beyond the label `fill` (mL) that a container of this stock holds in a run; undefined where none is reckoned with. */
export function beyondLabel(stock: Stock, name: string, fill: Exact, known: OverfillKnown): Exact | undefined {
  const stated = stock.facts.one("overfill")?.slots.overfill;
  if (!stated) return known.presumed.has(name) ? fill.times(mostFoundInBags) : undefined;
  if (known.which === "least") return volumeOf(stated.from.quantity);
  if (known.which === "most") return volumeOf(stated.to.quantity);
  return known.counted.has(name) ? meanOverfill(stock) : undefined;
}

/** mL; undefined where none is declared, or what is declared cannot be read. */
export function meanOverfill({ facts }: Stock): Exact | undefined {
  const stated = facts.one("overfill")?.slots.overfill;
  const [least, most] = [volumeOf(stated?.from.quantity), volumeOf(stated?.to.quantity)];
  return least && most ? least.plus(most).over(Exact.of(2)) : undefined;
}

/**
 * Whether the strength of what is taken out rests on how much its container held beyond the label: a drug was added to the container's
 * own fluid. What comes ready mixed is as strong in its overfill.
 */
export function holdsOverfill({ facts }: Stock, taken: Liquid): boolean {
  const own = facts.one("fluid")?.slots.fluid.name;
  if (own === undefined || facts.one("drug") || !taken.fluids.get(own)?.isPositive()) return false;
  return taken.drugs.some((drug) => taken.amounts.get(drug)?.isPositive());
}

/**
 * Asks that the declared overfill of a container be counted, once a part of what was mixed in it is taken by its volume or its strength.
 * What is given as it stands, and what is emptied by `all`, goes by the label.
 */
export function countOverfill(bench: Bench, { name, stock, liquid }: Vessel): void {
  const { figure } = bench.current.slots as { figure?: { choice: string } };
  if (!stock?.facts.one("overfill") || bench.options.finals.has(name) || figure?.choice === "all") return;
  if (holdsOverfill(stock, liquid)) bench.demands.overfilled.add(name);
}
