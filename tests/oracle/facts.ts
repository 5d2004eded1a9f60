/** What the facts of a program come to: amounts in one measure for each drug, and what a mL or a vial of each stock brings. */
import { type Figure, measureOf } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { DrugFact, Program, StockFact } from "./program.ts";

/** Standard atomic weights (abridged, CIAAW; for magnesium, sulfur, chlorine and the light elements the conventional values). */
const weights: Readonly<Record<string, string>> = {
  H: "1.008",
  C: "12.011",
  N: "14.007",
  O: "15.999",
  Na: "22.98976928",
  Mg: "24.305",
  S: "32.06",
  Cl: "35.45",
  K: "39.0983",
  Ca: "40.078",
};

/** g in a mmol. */
function molarMass(drug: DrugFact): Fraction {
  if (!drug.formula) throw new RangeError(`${drug.name} has no formula`);
  const perMole = drug.formula.reduce(
    (sum, [element, count]) => sum.plus(Fraction.of(weights[element]!).times(Fraction.of(count))),
    Fraction.zero,
  );
  return perMole.over(Fraction.of(1000));
}

export function named<T extends { name: string }>(list: readonly T[], name: string): T {
  const found = list.find((each) => each.name === name);
  if (!found) throw new RangeError(`nothing is called ${name}`);
  return found;
}

/** Mass, mmol or units of activity: as the products of a drug are labelled. */
export function countedIn(program: Program, drug: string): "mass" | "moles" | "activity" {
  for (const { drug: held, strength, powder } of program.stocks) {
    const label = held === drug ? (strength ?? powder?.content) : undefined;
    const measure = label && measureOf(label.unit);
    if (measure === "mass" || measure === "moles" || measure === "activity") return measure;
  }
  throw new RangeError(`no product of ${drug} says how much is in it`);
}

/** A figure of a drug in the measure of its products; undefined where nothing turns one into the other. */
export function amountOf(program: Program, drugName: string, { value, unit, ion, as }: Figure): Fraction | undefined {
  const drug = named(program.drugs, drugName);
  const measure = measureOf(unit);
  const wanted = countedIn(program, drugName);
  if (drug.salt && measure === "mass") {
    if (as === drug.salt.name) return value.over(drug.salt.massForOneGram.value);
    return as === drug.salt.base ? value : undefined;
  }
  if (measure === wanted && ion === undefined) return value;
  if (wanted === "activity" || (measure !== "moles" && measure !== "equivalents")) return undefined;
  if (ion !== undefined && ion !== drug.ion?.name) return undefined;
  let moles = value;
  if (measure === "equivalents") {
    if (!drug.ion?.charge) return undefined;
    moles = moles.over(Fraction.of(drug.ion.charge));
  }
  if (ion !== undefined || measure === "equivalents") moles = moles.over(Fraction.of(drug.ion!.count));
  if (wanted === "moles") return moles;
  return drug.formula ? moles.times(molarMass(drug)) : undefined;
}

/** mL that the powder of one vial takes up: what the stock says, or what its label implies. */
export function displacementOf(stock: StockFact): Fraction {
  const { content, displacement, label } = stock.powder!;
  if (displacement) {
    const isForMass = displacement.unit.includes("/");
    return isForMass ? displacement.value.times(content.value) : displacement.value;
  }
  // The label's strength counts the form that its content counts.
  return content.value.over(label!.gives.value).minus(label!.with.value);
}

/** Amount of its drug that one mL brings, or one vial of powder. */
export function broughtBy(program: Program, stock: StockFact): Fraction {
  if (!stock.drug) return Fraction.zero;
  return amountOf(program, stock.drug, (stock.strength ?? stock.powder?.content)!)!;
}

/** mmol of an ion that one mL, or one vial of powder, brings. */
export function ionBroughtBy(program: Program, stock: StockFact, ion: string): Fraction {
  let sum = Fraction.zero;
  for (const row of stock.contains ?? []) if (row.ion === ion) sum = sum.plus(row.figure.value);
  if (stock.fluid) {
    for (const row of named(program.fluids, stock.fluid).contains)
      if (row.ion === ion) sum = sum.plus(row.figure.value);
  }
  const drug = stock.drug === undefined ? undefined : named(program.drugs, stock.drug);
  if (drug?.ion?.name === ion) {
    const amount = broughtBy(program, stock);
    const moles = countedIn(program, drug.name) === "moles" ? amount : amount.over(molarMass(drug));
    sum = sum.plus(moles.times(Fraction.of(drug.ion.count)));
  }
  return sum;
}

/** Every ion of which something is declared. */
export function ionsOf(program: Pick<Program, "fluids" | "stocks" | "drugs">): string[] {
  const rows = [...program.fluids, ...program.stocks].flatMap(({ contains }) => contains ?? []);
  return [...new Set([...rows.map((row) => row.ion), ...program.drugs.flatMap(({ ion }) => (ion ? [ion.name] : []))])];
}
