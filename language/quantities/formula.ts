/**
 * Molar mass from a chemical formula. The package mf-parser reads the composition; the weights are the abridged standard
 * atomic weights of IUPAC CIAAW 2021 (published 2022), kept here as exact decimals, since a library's binary floats do not add
 * up exactly.
 */
import { MF } from "mf-parser";
import { Exact } from "./exact.ts";

/** g/mol. Read through the table in the public-domain package periodictable (units/conversions.json, atomic-weight rows) for
 * H C N O Na Mg P S Cl K Ca; the others are from memory of the same table. */
const atomicWeights: Readonly<Record<string, string>> = {
  H: "1.0080", C: "12.011", N: "14.007", O: "15.999", Na: "22.98976928", Mg: "24.305", P: "30.973761998", S: "32.06",
  Cl: "35.45", K: "39.0983", Ca: "40.078",
  Li: "6.94", B: "10.81", F: "18.998403162", Al: "26.9815384", Si: "28.085", Mn: "54.938043", Fe: "55.845", Co: "58.933194",
  Cu: "63.546", Zn: "65.38", Se: "78.971", Br: "79.904", I: "126.90447", Cr: "51.9961", Pt: "195.084",
};

export interface FormulaFault {
  fault: "not-a-formula" | "unknown-element";
  /** Plain sentence. */
  message: string;
}

const known = new Map<string, Exact | FormulaFault>();

/** @returns g/mol, exact; or why the formula has none. */
export function molarMass(formula: string): Exact | FormulaFault {
  const before = known.get(formula);
  if (before) return before;
  const mass = compute(formula);
  if (known.size > 500) known.clear();
  known.set(formula, mass);
  return mass;
}

function compute(formula: string): Exact | FormulaFault {
  if (!/^(?:\d*[A-Z(][A-Za-z0-9()]*)(?:[.\u00b7]\d*[A-Z(][A-Za-z0-9()]*)*$/.test(formula)) return notAFormula(formula);
  let atoms: Record<string, number>;
  try {
    atoms = new MF(formula.replace(/\u00b7/g, ".")).getInfo().atoms as Record<string, number>;
  } catch {
    return notAFormula(formula);
  }
  let mass = Exact.zero;
  for (const [element, count] of Object.entries(atoms)) {
    const weight = atomicWeights[element];
    if (!weight || !Number.isSafeInteger(count)) {
      return { fault: "unknown-element", message: `${element} in ${formula} has no atomic weight here; the molar mass is not computed.` };
    }
    mass = mass.plus(Exact.of(weight).times(Exact.of(count)));
  }
  return mass.isPositive() ? mass : notAFormula(formula);
}

function notAFormula(formula: string): FormulaFault {
  return { fault: "not-a-formula", message: `${formula} does not read as a chemical formula such as MgSO4.7H2O.` };
}
