/** Drugs of invented names and figures, one for each way of counting: mass, mass with an ion, units, mmol, a salt. */
import { type Figure, figure, fits } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { DrugFact, StockFact } from "./program.ts";
import type { Random } from "./random.ts";

export interface DrugKind {
  fact: DrugFact;
  /** What an amount of it is called in; the first is the measure of its label. */
  units: readonly string[];
  ionUnits: readonly string[];
  /** Strengths in the first of the units in a mL. */
  strengths: readonly (number | string)[];
  /** Beside the drug in its liquid products. */
  contains?: StockFact["contains"];
}

const plain = (name: string, strengths: DrugKind["strengths"]): DrugKind => ({
  fact: { name },
  units: ["mg", "g", "mcg"],
  ionUnits: [],
  strengths,
});

export const drugKinds: readonly DrugKind[] = [
  plain("lentimycin", [10, 20, 25, 50, 100]),
  plain("orlacaine", [2, 5, 10, "7.5"]),
  plain("vorapril", [1, "0.5", "0.25", "0.1"]),
  {
    fact: {
      name: "magnesium-sulfate",
      formula: [
        ["Mg", 1],
        ["S", 1],
        ["O", 11],
        ["H", 14],
      ],
      formulaText: "MgSO4.7H2O",
      ion: { name: "magnesium", charge: 2, count: 1 },
    },
    units: ["mg", "g"],
    ionUnits: ["mmol", "mEq"],
    strengths: [100, 200, 500],
  },
  {
    fact: {
      name: "sodium-trialate",
      formula: [
        ["Na", 3],
        ["C", 6],
        ["H", 5],
        ["O", 7],
      ],
      formulaText: "Na3C6H5O7",
      ion: { name: "sodium", charge: 1, count: 3 },
    },
    units: ["mg", "g"],
    ionUnits: ["mmol", "mEq"],
    strengths: [40, 100, 250],
  },
  { fact: { name: "veltinase" }, units: ["units"], ionUnits: [], strengths: [100, 1000, 5000] },
  {
    fact: { name: "trial-phosphate", ion: { name: "phosphate", charge: 0, count: 1 } },
    units: ["mmol"],
    ionUnits: ["mmol"],
    strengths: [1, 3],
    contains: [{ ion: "potassium", figure: figure("4.4", "mmol/mL") }],
  },
];

const salted: DrugFact = {
  name: "ketolamine",
  salt: { base: "ketolamine", name: "ketolamine-acetate", massForOneGram: figure("1.2", "g") },
};

export const saltDrug: DrugKind = { fact: salted, units: ["mg", "g"], ionUnits: [], strengths: [12, 60, 120] };

/** A strength as a label may say it: the same figure in another unit where it can be written so. */
export function strengthFigure(random: Random, { units, fact }: DrugKind, number: number | string): Figure {
  const stated = figure(
    number,
    `${units[0]}/mL`,
    fact.salt ? { as: random.pick([fact.salt.base, fact.salt.name]) } : {},
  );
  const others =
    units[0] === "mg" ? ["g/L", "g/mL", "mcg/mL", "% w/v", "1: w/v"] : units[0] === "units" ? ["units/L"] : [];
  const inverse = Fraction.one.over(stated.value);
  const able = others.filter((unit) =>
    unit === "1: w/v" ? inverse.d === 1n && inverse.n > 9n && !fact.salt : fits(stated.value, unit),
  );
  return random.chance(0.35) && able.length > 0 ? { ...stated, unit: random.pick(able) } : stated;
}

/** An amount in one of the units that it can be written in. */
export function amountFigure(
  random: Random,
  { units }: DrugKind,
  value: Fraction,
  more: Partial<Figure> = {},
): Figure | undefined {
  const able = units.filter((unit) => fits(value, unit));
  return able.length > 0 ? { ...more, value, unit: random.pick(able) } : undefined;
}
