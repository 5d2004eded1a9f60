/** What a generated program may take from the shelf: syringes, fluids, bags and the products of a drug. */
import type { DrugKind } from "./drugs.ts";
import { strengthFigure } from "./drugs.ts";
import { type Figure, figure } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { FluidFact, StockFact, SyringeFact } from "./program.ts";
import type { Random } from "./random.ts";

export const mL = (number: number | string | Fraction): Figure => figure(number, "mL");

const syringe = (capacity: number | string, graduation: string): SyringeFact => ({
  capacity: mL(capacity),
  graduation: mL(graduation),
});

export const syringes: readonly SyringeFact[] = [
  syringe(1, "0.01"),
  syringe("2.5", "0.1"),
  syringe(5, "0.2"),
  syringe(10, "0.5"),
  syringe(12, "0.2"),
  syringe(25, "1"),
  syringe(60, "1"),
];

/** The smallest syringe that holds a volume. */
export function syringeFor(volume: Fraction): SyringeFact {
  return syringes.find(({ capacity }) => volume.against(capacity.value) <= 0) ?? syringes.at(-1)!;
}

export const saline: FluidFact = {
  name: "sodium-chloride-0.9",
  title: "sodium chloride 0.9 % w/v",
  contains: [
    { ion: "sodium", figure: figure(154, "mmol/L") },
    { ion: "chloride", figure: figure(154, "mmol/L") },
  ],
  osmolarity: 308,
};

export const glucose: FluidFact = { name: "glucose-5", title: "glucose 5 % w/v", contains: [], osmolarity: 278 };
export const water: FluidFact = {
  name: "water-for-injection",
  title: "water for injection",
  contains: [],
  osmolarity: 0,
};

export function bagOf(random: Random, fluid: FluidFact, name: string): StockFact {
  const fill = random.pick([50, 100, 250, 500, 1000]);
  const litre = fill === 1000 && random.chance(0.5);
  return {
    name,
    container: "bag",
    fluid: fluid.name,
    fill: litre ? figure(1, "L") : mL(fill),
    capacity: mL(fill + Math.max(60, fill / 5)),
  };
}

export function vialOfFluid(fluid: FluidFact, fill: number, name: string): StockFact {
  return { name, container: "vial", fluid: fluid.name, fill: mL(fill) };
}

/** Ampoule or vial of a solution. */
export function solutionOf(random: Random, kind: DrugKind, name: string, fills: readonly number[]): StockFact {
  return {
    name,
    container: random.pick(["ampoule", "vial"] as const),
    drug: kind.fact.name,
    strength: strengthFigure(random, kind, random.pick(kind.strengths)),
    fill: mL(random.pick(fills)),
    ...(kind.contains ? { contains: kind.contains } : {}),
    ...(random.chance(0.4) ? { osmolarity: random.between(200, 900) } : {}),
  };
}

/** A powder, by what its label says that it gives, or by what its powder takes up. */
export function powderOf(random: Random, kind: DrugKind, name: string): StockFact {
  const volume = random.pick([4, 5, 8, 10]);
  const isByDisplacement = random.chance(0.4);
  const beyond = random.pick([...(isByDisplacement ? [] : ["0"]), "0.2", "0.5", ...(volume < 8 ? [] : ["0.8"])]);
  const all = Fraction.of(volume).plus(Fraction.of(beyond));
  const unit = kind.units[0]!;
  const gives = Fraction.of(random.pick(unit === "units" ? [10000, 50000] : [50, 100]));
  const more = kind.fact.salt ? { as: random.pick([kind.fact.salt.base, kind.fact.salt.name]) } : {};
  const content = figure(gives.times(all), unit, more);
  const stock = { name, container: "powder-vial" as const, drug: kind.fact.name };
  if (isByDisplacement) {
    const isForMass = unit === "mg" && random.chance(0.5) && !kind.fact.salt;
    const taken = Fraction.of(beyond);
    const perGram = taken.over(content.value);
    const text = perGram.decimal();
    const displacement = isForMass && text && text.length < 7 ? figure(perGram, "mL/g") : mL(taken);
    return { ...stock, powder: { content, displacement } };
  }
  return {
    ...stock,
    powder: {
      content,
      label: {
        with: mL(volume),
        gives: figure(gives, `${unit}/mL`),
        withdrawable: mL(random.chance(0.5) ? all : Fraction.of(volume)),
        fluid: water.name,
      },
    },
  };
}
