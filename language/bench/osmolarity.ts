/** Osmolarity of a finished container as far as its facts tell: the least that it can be, and the most where that is known. */

import type { Drug, Stock } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { composition } from "../quantities/formula.ts";
import { inBase } from "../quantities/quantity.ts";
import { kindOf, kindUnits } from "./amounts.ts";
import type { AmountKind } from "./liquid.ts";
import { oncePerVessel } from "./remembered-run.ts";
import type { Run } from "./run.ts";
import { nameOfKey } from "./setup.ts";
import type { Vessel } from "./things.ts";

/**
 * mOsm that a gram of anything dissolved can bring at the most: hydrogen chloride (36.46 g/mol, two particles) brings 54.9, and
 * no salt, sugar or drug that is given comes near it (sodium chloride 34.2). Molar masses: standard atomic weights.
 */
const mostPerGram = Exact.of("54.9");

/**
 * mOsm that a millilitre of any solution can hold: concentrated hydrochloric acid (12 mol/L, two particles) holds 24, saturated sodium
 * chloride 12.3, and a pure alcohol 17 (from memory).
 */
const mostPerMillilitre = Exact.of(25);

/** No ion that is given carries more charges than this, so that so many mEq are at least a third as many mmol. */
const mostCharges = Exact.of(3);

export interface Osmolarity {
  /** mOsm per mL. Ideal; a salt of which only one ion is declared has one counter-ion at least. */
  least: Exact;
  /** mOsm per mL; undefined where something is in it of which not even the mass is known. */
  most: Exact | undefined;
  /** What is left out of `least`, and which fact would bring it in. */
  uncounted: { name: string; lacks: string }[];
}

export const osmolarityOf = oncePerVessel(workedOut);

function workedOut(vessel: Vessel, run: Run): Osmolarity | undefined {
  const { volume, fluids, amounts } = vessel.liquid;
  if (!volume.isPositive()) return undefined;
  let least = Exact.zero;
  let more: Exact | undefined = Exact.zero;
  const uncounted: Osmolarity["uncounted"] = [];
  for (const [name, part] of fluids) {
    const fluid = run.setup.fluids.get(name);
    const stated = fluid?.facts.one("osmolarity")?.slots.osmolarity.quantity;
    if (stated?.unit.dimension.key === "osmoles/volume") least = least.plus(part.times(inBase(stated)));
    else if (fluid) {
      const isUnread = fluid.facts.isUnread("osmolarity") || (!stated && fluid.facts.one("osmolarity") !== undefined);
      uncounted.push({
        name,
        lacks: isUnread
          ? `the \`osmolarity\` of fluid ${name} cannot be read`
          : `fluid ${name} states no \`osmolarity\` in mOsm/L`,
      });
      more = undefined;
    }
  }
  for (const { name, held, kind } of containedBeside(vessel, run)) {
    if (kind === "moles") {
      least = least.plus(held);
    } else if (kind === "equivalents") {
      least = least.plus(held.over(mostCharges));
      more = more?.plus(held.minus(held.over(mostCharges)));
    } else {
      uncounted.push({ name, lacks: `how many particles ${name} brings is not known; state it in mmol` });
      more = kind === "mass" ? more?.plus(held.times(mostPerGram)) : undefined;
    }
  }
  for (const [name, held] of amounts) {
    const drug = run.setup.drugs.get(name);
    if (!drug || held.isZero()) continue;
    const labelled = byLabel(name, fluids.get(name), run);
    if (labelled) {
      least = least.plus(labelled);
      continue;
    }
    const particles = particlesOf(held, drug, run);
    if (particles) {
      least = least.plus(particles.least);
      if (particles.most.isAbove(particles.least)) {
        uncounted.push({ name, lacks: `drug ${name} does not declare all of its ions` });
        more = more?.plus(particles.most.minus(particles.least));
      }
      continue;
    }
    const isMass = run.setup.kinds.get(name) === "mass";
    const lacks = isStatedOfPowder(name, run)
      ? `the \`osmolarity\` of a powder's stock does not say of which solution, and drug ${name} states no \`formula\``
      : isMass
        ? `drug ${name} states no \`formula\`, and its stock no \`osmolarity\``
        : `no stock of ${name} states its \`osmolarity\`, and ${name} is measured in ${kindUnits[run.setup.kinds.get(name) ?? "activity"].spelling}`;
    uncounted.push({ name, lacks });
    const solution = isOfPowder(name, run) ? undefined : fluids.get(name);
    const most = isMass ? held.times(mostPerGram) : solution?.times(mostPerMillilitre);
    more = most && more?.plus(most);
  }
  return { least: least.over(volume), most: more && least.plus(more).over(volume), uncounted };
}

/**
 * What stocks say they contain on top of their fluid, so that no stated osmolarity counts it yet: an electrolyte in water, say.
 * What a drug's own stock contains is the drug's, and is counted with it.
 */
function containedBeside(vessel: Vessel, run: Run): { name: string; held: Exact; kind: AmountKind }[] {
  const stocks = [...run.groups.values()].flatMap(({ item }) =>
    item?.kind === "stock" && vessel.liquid.stocks.includes(item.name.name) ? [item] : [],
  );
  const ofDrugs = new Set(
    stocks.flatMap((s) => (s.facts.one("drug") ? s.facts.all("contains").map((f) => f.slots.what.name) : [])),
  );
  return [...vessel.liquid.amounts].flatMap(([key, amount]) => {
    const kind = run.setup.kinds.get(key);
    const name = nameOfKey(key);
    if (!kind || run.setup.drugs.has(name) || ofDrugs.has(name)) return [];
    const held = amount.minus(ofFluids(name, kind, vessel, run));
    return held.isPositive() ? [{ name, held, kind }] : [];
  });
}

/** How much of it the fluids bring by their own account, where their stated osmolarity counts it. */
function ofFluids(name: string, kind: AmountKind, vessel: Vessel, run: Run): Exact {
  let sum = Exact.zero;
  for (const [fluid, part] of vessel.liquid.fluids) {
    const facts = run.setup.fluids.get(fluid)?.facts;
    if (!facts?.one("osmolarity")) continue;
    for (const { slots } of facts.all("contains")) {
      const { quantity } = slots.amount;
      if (slots.what.name === name && quantity && kindOf(quantity) === kind)
        sum = sum.plus(inBase(quantity).times(part));
    }
  }
  return sum;
}

/** What the solution of a drug brings by the osmolarity on its label; undefined unless every stock of it here states the same. */
function byLabel(drug: string, volume: Exact | undefined, run: Run): Exact | undefined {
  const stated = [...run.groups.values()].flatMap(({ item }) =>
    item?.kind === "stock" && item.facts.one("drug")?.slots.drug.name === drug
      ? [item.facts.one("osmolarity")?.slots.osmolarity.quantity]
      : [],
  );
  const [first, ...others] = stated.map((q) => (q?.unit.dimension.key === "osmoles/volume" ? inBase(q) : undefined));
  if (!volume?.isPositive() || !first || !others.every((other) => other?.equals(first))) return undefined;
  return volume.times(first);
}

/** What the label says of the solution that a powder gives is laid to no liquid that is drawn. */
function isStatedOfPowder(drug: string, run: Run): boolean {
  return powdersOf(drug, run).some(({ facts }) => facts.one("osmolarity") !== undefined);
}

/** Dissolved here, so that the drug's own volume is that of its solid. */
function isOfPowder(drug: string, run: Run): boolean {
  return powdersOf(drug, run).length > 0;
}

function powdersOf(drug: string, run: Run): Stock[] {
  return [...run.groups.values()].flatMap(({ item }) =>
    item?.kind === "stock" &&
    item.facts.one("drug")?.slots.drug.name === drug &&
    item.facts.one("container")?.slots.kind.choice === "powder-vial"
      ? [item]
      : [],
  );
}

function particlesOf(held: Exact, drug: Drug, run: Run): { least: Exact; most: Exact } | undefined {
  const kind = run.setup.kinds.get(drug.name.name);
  const { molarMass } = drug.substance;
  const each = particlesOfOne(drug);
  const times = (moles: Exact) => ({ least: moles.times(each.least), most: moles.times(each.most) });
  if (kind === "moles") return times(held);
  if (kind !== "mass" || !molarMass?.isPositive()) return undefined;
  return times(inBase({ value: held, unit: kindUnits.mass }).over(molarMass).times(Exact.of(1000)));
}

/**
 * Particles that one formula unit sets free. Of a salt of which one ion alone is declared the others are as many as its charges let
 * them be: calcium is met by one sulfate, or by two chlorides.
 */
function particlesOfOne({ substance: { ions }, facts }: Drug): { least: Exact; most: Exact } {
  const declared = ions.reduce((sum, ion) => sum + ion.perFormula, 0);
  const [only, second] = ions;
  const formula = facts.one("formula")?.slots.text.text;
  const read = formula === undefined ? undefined : composition(formula);
  const atoms = read && !("refused" in read) ? read : undefined;
  if (second) return exactly(declared);
  if (!only) return { least: Exact.one, most: atoms ? mostOfMetals(atoms) : Exact.one };
  const charges = Math.max(1, Math.abs(only.charge) || mostOfOne) * only.perFormula;
  if (atoms && !atoms.has("C")) {
    // Without carbon a halogen is there as its ion, and one sulfur is one sulfate.
    const chlorine = atoms.get("Cl");
    if (chlorine && only.name !== "chloride") return exactly(chlorine.plus(Exact.of(declared)));
    if (atoms.get("S")?.equals(Exact.one) && only.name !== "sulfate") return exactly(declared + 1);
  }
  return { least: Exact.of(declared + 1), most: Exact.of(declared + charges) };
}

/** Of a salt that declares no ion: each atom of a metal, and as many ions against it as it has charges. */
function mostOfMetals(atoms: ReadonlyMap<string, Exact>): Exact {
  let sum = Exact.zero;
  for (const [symbol, charge] of metals) {
    const count = atoms.get(symbol);
    if (count) sum = sum.plus(count.times(Exact.of(1 + charge)));
  }
  return sum.isPositive() ? sum : Exact.one;
}

const metals = [
  ["Na", 1],
  ["K", 1],
  ["Li", 1],
  ["Mg", 2],
  ["Ca", 2],
  ["Zn", 2],
] as const;

/** Charges of an ion that states none because it has no single one, such as phosphate. */
const mostOfOne = 3;

function exactly(count: number | Exact): { least: Exact; most: Exact } {
  const value = typeof count === "number" ? Exact.of(count) : count;
  return { least: value, most: value };
}
