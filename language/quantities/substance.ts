/**
 * What is known of a substance, and the conversions that need it: mass and millimoles by the molar mass, millimoles and
 * milliequivalents by the charge of a named ion. Activity is never turned into mass; a figure that is missing is a refusal.
 */
import { Dimension } from "./dimension.ts";
import { Exact } from "./exact.ts";
import { type Quantity, inBase, toUnit } from "./quantity.ts";
import { type Refusal, isRefusal, refuse } from "./refusal.ts";
import type { Unit } from "./unit.ts";

export interface Ion {
  name: string;
  /** Charge without sign. */
  charge: number;
  /** How many of it are in one formula unit. */
  perFormula: number;
}

export interface Salt {
  name: string;
  /** This mass (g) of the salt … */
  mass: Exact;
  /** … holds this mass (g) of the counted form. */
  forBase: Exact;
}

export interface Substance {
  name: string;
  /** g/mol. */
  molarMass?: Exact;
  ions: Ion[];
  salts: Salt[];
  /** g/mL. */
  density?: Exact;
}

type Axis = "mass" | "moles" | "equivalents";
const axes: readonly Axis[] = ["mass", "moles", "equivalents"];
const thousand = Exact.of(1000);

/**
 * Converts amounts, and figures per volume, per kg or per time, whose numerator is a mass, mmol or mEq of the substance.
 * @param ion the ion that mmol or mEq speak of; needed where the substance has several
 */
export function convert(q: Quantity, to: Unit, of: Substance, ion?: string): Quantity | Refusal {
  const from = axisOf(q.unit);
  const wanted = axisOf(to);
  if (q.unit.dimension === to.dimension && (from === wanted || !from)) {
    if (ion === undefined || from !== "moles") return toUnit(q, to);
  }
  if (!from || !wanted || !sameBelow(q.unit, to, from, wanted)) return toUnit(q, to);
  const perMole = massPerMillimole(of);
  // Everything goes over millimoles of the substance as a whole.
  let moles = inBase(q);
  if (from === "mass") {
    if (!perMole) return noFormula(q.unit, to, of);
    moles = moles.over(perMole);
  } else if (from === "equivalents" || ion !== undefined) {
    const factor = ionFactor(of, ion, from, q.unit);
    if (isRefusal(factor)) return factor;
    moles = moles.over(factor);
  }
  if (wanted === "mass") {
    if (!perMole) return noFormula(q.unit, to, of);
    return { value: moles.times(perMole).over(to.factor), unit: to };
  }
  if (wanted === "equivalents") {
    const factor = ionFactor(of, ion, wanted, to);
    if (isRefusal(factor)) return factor;
    return { value: moles.times(factor).over(to.factor), unit: to };
  }
  return { value: moles.over(to.factor), unit: to };
}

/** Ideal osmolarity: mOsm for one mmol, the number of particles it falls into. */
export function particles(of: Substance): number {
  return of.ions.length === 0 ? 1 : of.ions.reduce((sum, ion) => sum + ion.perFormula, 0);
}

function axisOf(unit: Unit): Axis | undefined {
  return axes.find((axis) => unit.dimension.exponents[axis] === 1);
}

function sameBelow(a: Unit, b: Unit, from: Axis, to: Axis): boolean {
  return a.dimension.over(Dimension.of({ [from]: 1 })) === b.dimension.over(Dimension.of({ [to]: 1 }));
}

function massPerMillimole(of: Substance): Exact | undefined {
  return of.molarMass?.over(thousand);
}

function noFormula(from: Unit, to: Unit, of: Substance): Refusal {
  return refuse("needs-formula", `${from.spelling} of ${of.name} cannot be turned into ${to.spelling}: its chemical formula is not declared.`);
}

/** mmol of an ion, or mEq of it, for one mmol of the substance. */
function ionFactor(of: Substance, name: string | undefined, axis: Axis, unit: Unit): Exact | Refusal {
  const ion = name === undefined ? (of.ions.length === 1 ? of.ions[0] : undefined) : of.ions.find((i) => i.name === name);
  if (!ion) {
    const missing =
      of.ions.length === 0
        ? `${of.name} declares no ion with its charge`
        : `say which ion is meant: ${of.ions.map((i) => i.name).join(" or ")}`;
    return refuse("equivalents-need-an-ion", `${unit.spelling} of ${of.name} cannot be computed: ${missing}.`);
  }
  const count = Exact.of(ion.perFormula);
  return axis === "equivalents" ? count.times(Exact.of(ion.charge)) : count;
}
