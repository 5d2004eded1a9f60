/**
 * mol, mEq and mOsm: the row's own molar mass, charge and particles as the facts of a substance, then the language's conversion.
 * (A recipe states a formula instead; its molar mass may differ from a source's in the last digit.)
 */
import { minus, over, plus, type Quantity, type Refusal, times } from "../../../language/quantities/quantity.ts";
import { convert, type Ion, type Substance } from "../../../language/quantities/substance.ts";
import { findUnit } from "../../../language/quantities/unit.ts";
import { concentrationIn } from "../recipe.ts";
import { given, known, type Row, text } from "../rows.ts";
import { madeUp } from "./mixing.ts";
import type { Shape } from "./shape.ts";

const cation = (charge: number): Ion => ({ name: "cation", charge, perFormula: 1 });
const anion = (charge: number, perFormula = 1): Ion => ({ name: "anion", charge, perFormula });

/** The salt of the row; `particles` says how many ions it sets free. */
function substance(row: Row, ions: Ion[] = []): Substance {
  const mass = row.given.molar_mass ?? row.given.atomic_mass;
  return {
    name: "the row's substance",
    ions,
    salts: [],
    ...(mass ? { molarMass: given(row, row.given.molar_mass ? "molar_mass" : "atomic_mass").value } : {}),
  };
}

const salts: Readonly<Record<string, Ion[]>> = {
  "1": [],
  "2": [cation(1), anion(-1)],
  "3": [cation(2), anion(-1, 2)],
};

function withParticles(row: Row): Substance {
  const count = row.given.particles?.value ?? "1";
  const ions = salts[count];
  if (!ions) throw new Error(`${row.id}: ${count} particles`);
  return substance(row, ions);
}

function withCharge(row: Row): Substance {
  return substance(row, [cation(Number(row.given.valence!.value))]);
}

const to = (q: Quantity, unit: string, of: Substance, ion?: string): Quantity | Refusal =>
  convert(q, findUnit(unit).unit!, of, ion);

export const electrolytes: readonly Shape[] = [
  {
    name: "molarity",
    rows: ["05-001"],
    find: (row) =>
      concentrationIn(madeUp("1 mol/L", text(row, "amount").replace("mol", "L"), text(row, "volume")), "flask"),
  },
  {
    name: "mass for a molarity",
    rows: ["05-002", "05-003", "05-007"],
    find: (row) => to(times(given(row, "molarity"), given(row, "volume")), "g", substance(row)),
  },
  {
    name: "volume for a molarity",
    rows: ["05-006"],
    find: (row) => over(known(to(given(row, "mass"), "mol", substance(row))), given(row, "molarity")),
  },
  {
    name: "molarity as mass in a volume",
    rows: ["05-009"],
    find: (row) => to(given(row, "molarity"), "mg/dL", substance(row)),
  },
  {
    name: "molality",
    rows: ["05-011"],
    find: (row) => {
      const water = known(minus(given(row, "density"), known(to(given(row, "molarity"), "g/mL", substance(row)))));
      return over(given(row, "molarity"), water);
    },
  },
  {
    name: "molarity from mass in a volume",
    rows: ["05-012", "05-041"],
    find: (row) => to(given(row, "mass_concentration"), "mmol/L", substance(row)),
  },
  {
    name: "mmol in a mass",
    rows: ["05-025", "05-026", "05-030"],
    find: (row) => to(given(row, "mass"), "mmol", substance(row)),
  },
  {
    name: "mmol of an ion in a mass",
    rows: ["05-031"],
    find: (row) =>
      to(
        given(row, "mass"),
        "mmol",
        substance(row, [cation(2), anion(-1, Number(row.given.chlorides!.value))]),
        "anion",
      ),
  },
  { name: "mEq in a mass", rows: ["05-014"], find: (row) => to(given(row, "mass"), "mEq", withCharge(row)) },
  {
    name: "mass of mEq in a volume",
    rows: ["05-017", "05-021"],
    find: (row) => to(given(row, "strength"), "mg/mL", withCharge(row)),
  },
  {
    name: "percent of mEq in a volume",
    rows: ["05-016"],
    find: (row) => to(given(row, "strength"), "% w/v", withCharge(row)),
  },
  {
    name: "percent of mEq in a litre",
    rows: ["05-018"],
    find: (row) => to(given(row, "concentration"), "% w/v", withCharge(row)),
  },
  {
    name: "mEq in a litre from a mass in a volume",
    rows: ["05-019", "05-022"],
    find: (row) => to(over(given(row, "mass"), given(row, "volume")), "mEq/L", withCharge(row)),
  },
  {
    name: "volume of a stock that holds mEq",
    rows: ["05-023"],
    find: (row) =>
      over(
        known(to(given(row, "amount"), "g", withCharge(row))),
        over(given(row, "stock_mass"), given(row, "stock_volume")),
      ),
  },
  {
    name: "volume of a percent strength that holds mEq",
    rows: ["05-024"],
    find: (row) => over(known(to(given(row, "amount"), "g", withCharge(row))), given(row, "percent")),
  },
  {
    name: "osmolarity from mmol",
    rows: ["05-028"],
    find: (row) => to(given(row, "concentration"), "mOsm/L", withParticles(row)),
  },
  {
    name: "osmolarity from mass",
    rows: ["05-033", "05-034", "05-036", "05-038"],
    find: (row) => to(given(row, "mass_concentration"), "mOsm/L", withParticles(row)),
  },
  {
    name: "osmolarity of glucose",
    rows: ["05-044"],
    find: (row) => to(given(row, "glucose"), "mOsm/L", substance(row)),
  },
  {
    name: "osmolarity from ions",
    rows: ["05-043"],
    find: (row) => {
      // Each ion is a particle of its own; the two of them make the whole.
      const alone: Substance = { name: "one ion", ions: [], salts: [] };
      const [sodium, chloride] = ["sodium", "chloride"].map((name) => known(to(given(row, name), "mOsm/L", alone)));
      return plus(sodium!, chloride!);
    },
  },
  {
    name: "mOsm in a volume of glucose",
    rows: ["05-050"],
    find: (row) =>
      to(times(given(row, "dextrose"), given(row, "volume")), "mOsm", {
        name: "dextrose",
        ions: [],
        salts: [],
        molarMass: given(row, "dextrose_molar_mass").value,
      }),
  },
  {
    name: "mOsm in a volume of sodium chloride",
    rows: ["05-051"],
    find: (row) =>
      to(times(given(row, "sodium_chloride"), given(row, "volume")), "mOsm", {
        name: "sodium chloride",
        ions: salts["2"]!,
        salts: [],
        molarMass: given(row, "sodium_chloride_molar_mass").value,
      }),
  },
];
