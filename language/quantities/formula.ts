/**
 * Molar mass from a chemical formula, exactly, as the pharmacopoeia asks: computed from the atomic weights, not pasted
 * (USP General Notices 8.40).
 *
 * The package mf-parser only counts the atoms of one unbroken part. Hydrates are split here, because it reads the dot of
 * `MgSO4.7H2O` as a decimal point (4.7 oxygen), and its masses are binary floating point from isotope tables.
 */
import { MF } from "mf-parser";
import { atomicWeights } from "./atomic-weights.ts";
import { Exact } from "./exact.ts";

export interface FormulaFault {
  refused: true;
  rule: "formula";
  /** Plain sentence: what cannot be read, and what to write. */
  reason: string;
}

/** Atoms of each element in one formula unit; a hemihydrate makes halves. */
export type Composition = ReadonlyMap<string, Exact>;

/** Longer than any drug; keeps a pasted page from being worked through. */
const longestFormula = 120;
const dot = /[.·•⋅∙*]/u;
const part = /^(\d{1,3}(?:\.\d)?)?((?:[A-Z(][A-Za-z0-9()]*))/;
const symbol = /[A-Z][a-z]?/g;
const plainPart = /^(?:[A-Z][a-z]?|[()])(?:(?:[1-9]\d{0,2})?(?:[A-Z][a-z]?|[()]))*(?:[1-9]\d{0,2})?$/;
/** A zero where the letter O belongs: no drug is hydrogen alone, and no count begins with 0. */
const zeroForLetter = /^H20$|[A-Za-z)]0/;

/** g/mol, exact sum of counts times atomic weights. Dot or middle dot before water of crystallisation: `MgSO4.7H2O`. */
export function molarMass(formula: string): Exact | FormulaFault {
  const atoms = composition(formula);
  if ("refused" in atoms) return atoms;
  let sum = Exact.zero;
  for (const [element, count] of atoms) sum = sum.plus(Exact.of(atomicWeights[element]!).times(count));
  return sum;
}

/** What one formula unit is made of, water of crystallisation included. */
export function composition(formula: string): Composition | FormulaFault {
  const parts = splitHydrate(formula.trim());
  if (!parts)
    return fault(
      `The formula "${shortened(formula)}" cannot be read. Write it like MgSO4.7H2O, with large and small letters as in the element names.`,
    );
  const total = new Map<string, Exact>();
  for (const { count, body } of parts) {
    const atoms = atomsOf(body);
    if ("refused" in atoms) return atoms;
    for (const [element, each] of atoms) total.set(element, (total.get(element) ?? Exact.zero).plus(each.times(count)));
  }
  return total;
}

function splitHydrate(formula: string): { count: Exact; body: string }[] | undefined {
  if (formula.length > longestFormula) return undefined;
  const parts: { count: Exact; body: string }[] = [];
  let rest = formula;
  while (true) {
    const match = part.exec(rest);
    if (!match) return undefined;
    const [whole, count = "1", body = ""] = match;
    if (Exact.of(count).isZero()) return undefined;
    parts.push({ count: Exact.of(count), body });
    rest = rest.slice(whole.length).trimStart();
    if (rest === "") return parts;
    if (!dot.test(rest.charAt(0))) return undefined;
    rest = rest.slice(1).trimStart();
  }
}

function atomsOf(body: string): Map<string, Exact> | FormulaFault {
  const unknown = (body.match(symbol) ?? []).find((each) => !Object.hasOwn(atomicWeights, each));
  if (unknown)
    return fault(
      `"${unknown}" in the formula part "${body}" is no element used in medicines here. Check its large and small letters.`,
    );
  if (zeroForLetter.test(body))
    return fault(
      `The formula part "${body}" holds the figure 0 where the letter O belongs. Write it as in H2O and SO4.`,
    );
  if (!plainPart.test(body))
    return fault(`The formula part "${body}" cannot be read. Write elements with their counts, as in Ca(C6H11O7)2.`);
  try {
    const atoms = Object.entries(new MF(body).getInfo().atoms ?? {});
    if (atoms.length === 0 || atoms.some(([, count]) => !Number.isSafeInteger(count) || count <= 0))
      return unreadable(body);
    return new Map(atoms.map(([element, count]) => [element, Exact.of(count)]));
  } catch {
    return unreadable(body); // a bracket without its partner
  }
}

function unreadable(body: string): FormulaFault {
  return fault(`The formula part "${body}" cannot be counted. Check its brackets and figures.`);
}

function fault(reason: string): FormulaFault {
  return { refused: true, rule: "formula", reason };
}

function shortened(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)} …` : text;
}
