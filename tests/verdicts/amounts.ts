/** What the bag holds, in whatever a limit counts: every figure by the oracle's own facts, none by the language. */
import { amountOf, broughtBy, ionBroughtBy, named } from "../oracle/facts.ts";
import { type Figure, figure } from "../oracle/figure.ts";
import { Fraction } from "../oracle/fraction.ts";
import type { Program } from "../oracle/program.ts";
import type { Additive, Scenario, Time } from "./scenario.ts";

/** The oracle's facts ask only for drugs, fluids and products. */
export function factsOf({ drugs, fluid, additives, bag }: Scenario): Program {
  return {
    shape: "judged",
    drugs: drugs.map(({ fact }) => fact),
    bands: [],
    fluids: [fluid],
    stocks: [...additives.map(({ product }) => product), bag],
    materials: [],
    order: { doses: [], method: "add-to-bag" },
    actions: [],
    final: "bag",
    preparation: { concentrations: [], volumes: [] },
    intermediates: [],
  };
}

/** mL in the bag at the end. */
export const volumeOf = ({ additives, bag }: Scenario): Fraction =>
  additives.reduce((sum, { volume }) => sum.plus(volume), bag.fill!.value);

/** Amount of the drug in the bag, in g, mmol or units. */
export function heldOf(scenario: Scenario, drug: string): Fraction {
  const { product, volume } = scenario.additives.find((each) => each.drug === drug)!;
  return broughtBy(factsOf(scenario), product).times(volume);
}

/** mmol of an ion in the bag, with so many mL of each additive. */
export function ionHeld(
  scenario: Scenario,
  ion: string,
  volumes: readonly Fraction[] = scenario.additives.map(({ volume }) => volume),
): Fraction {
  const facts = factsOf(scenario);
  const fluid = ionBroughtBy(facts, scenario.bag, ion).times(scenario.bag.fill!.value);
  return scenario.additives.reduce(
    (sum, { product }, i) => sum.plus(ionBroughtBy(facts, product, ion).times(volumes[i]!)),
    fluid,
  );
}

/** How many of a unit are in the oracle's measure of it: 1,000 mg in a g. */
export const size = (unit: string): Fraction => figure(1, unit).value;

/** An amount of a drug, or of an ion over all that brings it, in the unit that a limit counts in. */
export function counted(
  scenario: Scenario,
  drug: string,
  amount: { drug: Fraction; ion: (ion: string) => Fraction },
  { unit, ion, as }: { unit: string; ion?: string; as?: string },
): Fraction | undefined {
  const fact = named(factsOf(scenario).drugs, drug);
  if (ion) {
    const moles = amount.ion(ion).over(size(unit === "mEq" ? "mEq" : unit));
    return unit === "mEq" ? moles.times(Fraction.of(fact.ion!.charge)) : moles;
  }
  const one = amountOf(factsOf(scenario), drug, { value: size(unit), unit, ...(as ? { as } : {}) });
  return one && amount.drug.over(one);
}

const hours: Readonly<Record<Exclude<Time["unit"], "months">, Fraction>> = {
  min: Fraction.ratio(1n, 60n),
  h: Fraction.one,
  days: Fraction.of(24),
};

export const inHours = ({ number, unit }: Time): Fraction => {
  if (unit === "months") throw new RangeError("a month has no hours of its own");
  return Fraction.of(number).times(hours[unit]);
};

/** Whether the first may be the longer; months are as long as they may be, or as short. */
export function mayBeLonger(one: Time, other: Time, gone = Fraction.zero): boolean {
  if (one.unit === "months" && other.unit === "months" && gone.isZero) return one.number > other.number;
  const inDays = ({ number, unit }: Time, days: number): Time =>
    unit === "months" ? { number: number * days, unit: "days" } : { number, unit };
  return inHours(inDays(one, 31)).against(inHours(inDays(other, 28)).minus(gone)) > 0;
}

export const perHour: Readonly<Record<string, Fraction>> = { h: Fraction.one, min: Fraction.of(60) };

/** The patient by whom a figure is divided. */
export function patientPart({ order }: Scenario, part: string): Fraction | undefined {
  return part === "kg" ? order.weight : part === "m2" ? order.surface : undefined;
}

/** What the order asks for of one additive: just what its volume brings. */
export function doseFigure(scenario: Scenario, additive: Additive): Figure {
  const [unit = "", part] = additive.unit.split("/");
  const held = heldOf(scenario, additive.drug);
  const of = { unit, ...(additive.ion ? { ion: additive.ion } : {}), ...(additive.as ? { as: additive.as } : {}) };
  const one = amountOf(factsOf(scenario), additive.drug, { value: size(unit), ...of })!;
  const all = held.over(one);
  const each = part ? all.over(patientPart(scenario, part)!) : all;
  return { ...of, value: each.times(size(unit)), unit };
}
