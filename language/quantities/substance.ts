/** Conversions that need to know the substance: mass, mmol, mEq, mOsm and, for a liquid, volume. Activity is never among them. */
import { type Axis, Dimension } from "./dimension.ts";
import { Exact } from "./exact.ts";
import { inBase, type Quantity, toUnit } from "./quantity.ts";
import { isRefusal, type Refusal, refusalBetween, refuse } from "./refusal.ts";
import type { Unit } from "./unit.ts";

export interface Ion {
  name: string;
  /** Charges of one ion; the sign may be left out. 0 where it has no single charge (phosphate): mmol only, never mEq. */
  charge: number;
  /** Ions set free by one formula unit. */
  perFormula: number;
}

export interface Salt {
  name: string;
  /** This mass of the salt … */
  mass: Exact;
  /** … holds this mass of the base, in the same unit. */
  forBase: Exact;
}

export interface Substance {
  name: string;
  /** g/mol, of the form the drug is weighed in, water of crystallisation included. */
  molarMass?: Exact;
  ions: Ion[];
  salts: Salt[];
  /** Name of the form that amounts are counted as, where the drug declares one. */
  base?: string;
  /** g/mL, of the pure liquid. */
  density?: Exact;
}

type Amount = "mass" | "moles" | "equivalents" | "osmoles" | "volume" | "volume/volume";
const amounts: readonly string[] = ["mass", "moles", "equivalents", "osmoles", "volume", "volume/volume"];

/**
 * The same amount of a substance in another unit, or why it cannot be said. Concentrations and rates convert above the line;
 * what stands below must measure the same in both.
 *
 * @param ion which ion mmol and mEq count, on either side. Without it mmol counts the substance, and mEq the only ion of a
 *   substance that has one; of several ions it must be named, unless all of them make the same mEq, as in potassium chloride.
 */
export function convert(q: Quantity, to: Unit, of: Substance, ion?: string): Quantity | Refusal {
  if (q.unit.dimension === to.dimension) return toUnit(q, to);
  const from = split(q.unit);
  const target = split(to);
  if (!from || !target || from.below !== target.below) return refusalBetween(q.unit, to);
  const counted = ionMeant(of, ion, [from.above, target.above]);
  if (counted && isRefusal(counted)) return counted;
  const up = perMillimole(from.above, of, counted, q.unit, to);
  if (isRefusal(up)) return up;
  const down = perMillimole(target.above, of, counted, q.unit, to);
  if (isRefusal(down)) return down;
  return { value: inBase(q).over(up).times(down).over(to.factor), unit: to };
}

function split(unit: Unit): { above: Amount; below: Dimension } | undefined {
  const above = unit.dimension.key === "volume/volume" ? "volume/volume" : unit.dimension.key.split("/")[0];
  if (above === undefined || !amounts.includes(above)) return undefined;
  // A share by volume is mL in mL, so that with a density it becomes a concentration.
  if (above === "volume/volume") return { above, below: Dimension.of({ volume: -1 }) };
  return { above: above as Amount, below: unit.dimension.over(Dimension.of({ [above as Axis]: 1 })) };
}

function ionMeant(of: Substance, name: string | undefined, kinds: readonly Amount[]): Ion | Refusal | undefined {
  if (name !== undefined) {
    const named = of.ions.find((each) => each.name === name);
    if (!named)
      return refuse("equivalents-need-an-ion", `${of.name} has no ion ${name} among its facts. ${ionList(of)}`);
    return named;
  }
  if (!kinds.includes("equivalents")) return undefined;
  const [only, ...others] = of.ions;
  if (only && others.length === 0) return only;
  if (only && others.every((each) => charges(each) === charges(only))) {
    return { name: only.name, charge: charges(only), perFormula: 1 };
  }
  return refuse("equivalents-need-an-ion", `mEq of ${of.name} does not say which ion is counted. ${ionList(of)}`);
}

/** Of one formula unit. */
function charges({ charge, perFormula }: Ion): number {
  return Math.abs(charge) * perFormula;
}

function ionList(of: Substance): string {
  if (of.ions.length === 0) return "Give its ions with their charges.";
  return `Name one of: ${of.ions.map((each) => each.name).join(", ")}.`;
}

/** How much of the kind (in its base unit) one mmol of the substance is. */
function perMillimole(kind: Amount, of: Substance, ion: Ion | undefined, from: Unit, to: Unit): Exact | Refusal {
  if (kind === "moles") return ion ? Exact.of(ion.perFormula) : Exact.one;
  if (kind === "equivalents") return ion ? equivalents(of, ion) : refusalBetween(from, to);
  if (kind === "osmoles") return particles(of);
  const grams = gramsPerMillimole(of, from, to);
  if (isRefusal(grams) || kind === "mass") return grams;
  if (!of.density?.isPositive()) {
    return refuse(
      "needs-density",
      `${from.spelling} of ${of.name} cannot be turned into ${to.spelling} without its density. State an amount of the drug in place of a volume, or a strength in place of a share; for a pure liquid give its density in g/mL.`,
    );
  }
  return grams.over(of.density);
}

function equivalents(of: Substance, ion: Ion): Exact | Refusal {
  if (ion.charge === 0) {
    return refuse(
      "equivalents-need-an-ion",
      `${ion.name} of ${of.name} has no single charge, so it has no mEq. State it in mmol.`,
    );
  }
  return Exact.of(charges(ion));
}

/** Between mass and volume the molar mass cancels, so a substance without formula gets along with 1. */
function gramsPerMillimole(of: Substance, from: Unit, to: Unit): Exact | Refusal {
  if (of.molarMass?.isPositive()) return of.molarMass.over(Exact.of(1000));
  const weighed = [from, to].every((unit) => ["mass", "volume", "volume/volume"].includes(split(unit)?.above ?? ""));
  if (weighed) return Exact.one;
  return refuse(
    "needs-formula",
    `${from.spelling} of ${of.name} cannot be turned into ${to.spelling}: its molar mass is not known. Give its formula.`,
  );
}

/**
 * Ideal mOsm from one mmol: the ions set free, or 1 where none is declared. Refused where the declared ions cannot be all of
 * them, because their charges do not balance; half the ions would give half the osmolarity.
 */
export function particles(of: Substance): Exact | Refusal {
  if (of.ions.length === 0) return Exact.one;
  if (!balanced(of.ions)) {
    return refuse(
      "particles-need-a-substance",
      `The charges of the ions given for ${of.name} do not balance, so some are missing. ${ionsGiven(of)} Give all its ions.`,
    );
  }
  return Exact.of(of.ions.reduce((sum, each) => sum + each.perFormula, 0));
}

function ionsGiven(of: Substance): string {
  return `Given: ${of.ions.map((each) => `${each.perFormula} ${each.name} of charge ${each.charge}`).join(", ")}.`;
}

/** With signs the charges add up to nothing; without signs some of them stand against the others. */
function balanced(ions: readonly Ion[]): boolean {
  if (ions.some((each) => each.charge === 0)) return ions.length > 1; // an ion without a single charge balances the rest
  const charges = ions.map((each) => each.charge * each.perFormula);
  if (charges.some((charge) => charge < 0)) return charges.reduce((sum, each) => sum + each, 0) === 0;
  let sums = new Set([0]);
  for (const charge of charges) sums = new Set([...sums].flatMap((sum) => [sum + charge, sum - charge]));
  return sums.has(0);
}
