/** The salts that the published rows speak of, with their ions; molar masses are computed from the formula. */
import { Exact } from "../../language/quantities/exact.ts";
import { molarMass } from "../../language/quantities/formula.ts";
import type { Ion, Substance } from "../../language/quantities/substance.ts";

function ions(text: string): Ion[] {
  return text
    .split(" ")
    .filter((each) => each !== "")
    .map((each) => {
      const [name = "", charge = "0", perFormula = "1"] = each.split(":");
      return { name, charge: Number(charge), perFormula: Number(perFormula) };
    });
}

const rows: readonly [name: string, formula: string, ions: string][] = [
  ["calcium chloride dihydrate", "CaCl2.2H2O", "Ca2+:2 Cl-:-1:2"],
  ["calcium chloride anhydrous", "CaCl2", "Ca2+:2 Cl-:-1:2"],
  ["calcium gluconate monohydrate", "C12H22CaO14.H2O", "Ca2+:2 gluconate-:-1:2"],
  ["calcium gluconate anhydrous", "C12H22CaO14", "Ca2+:2 gluconate-:-1:2"],
  ["magnesium sulfate heptahydrate", "MgSO4.7H2O", "Mg2+:2 SO4:-2"],
  ["magnesium sulfate anhydrous", "MgSO4", "Mg2+:2 SO4:-2"],
  ["potassium acetate", "C2H3KO2", "K+:1 acetate-:-1"],
  ["potassium chloride", "KCl", "K+:1 Cl-:-1"],
  ["sodium acetate anhydrous", "C2H3NaO2", "Na+:1 acetate-:-1"],
  ["sodium acetate trihydrate", "C2H3NaO2.3H2O", "Na+:1 acetate-:-1"],
  ["sodium bicarbonate", "NaHCO3", "Na+:1 HCO3-:-1"],
  ["sodium chloride", "NaCl", "Na+:1 Cl-:-1"],
  ["sodium lactate", "C3H5NaO3", "Na+:1 lactate-:-1"],
  ["ammonium chloride", "NH4Cl", "NH4+:1 Cl-:-1"],
  ["monobasic sodium phosphate monohydrate", "NaH2PO4.H2O", "Na+:1 P:0"],
  ["dibasic sodium phosphate anhydrous", "Na2HPO4", "Na+:1:2 P:0"],
  ["dibasic sodium phosphate heptahydrate", "Na2HPO4.7H2O", "Na+:1:2 P:0"],
  ["monobasic potassium phosphate", "KH2PO4", "K+:1 P:0"],
  ["dibasic potassium phosphate", "K2HPO4", "K+:1:2 P:0"],
  ["dextrose anhydrous", "C6H12O6", ""],
  ["dextrose monohydrate", "C6H12O6.H2O", ""],
];

function substance(name: string, formula: string, ionText: string): Substance {
  const mass = molarMass(formula);
  if (!(mass instanceof Exact)) throw new Error(mass.reason);
  return { name, molarMass: mass, ions: ions(ionText), salts: [] };
}

export const substances: ReadonlyMap<string, Substance> = new Map(
  rows.map(([name, formula, ionText]) => [name, substance(name, formula, ionText)]),
);

/** Names as the printed rows use them, for the form that the figures fit (rows ca-table-…: hydration not stated by the source). */
const printedNames: Readonly<Record<string, string>> = {
  "calcium chloride": "calcium chloride dihydrate",
  "calcium gluconate": "calcium gluconate anhydrous",
  "magnesium sulfate": "magnesium sulfate heptahydrate",
  dextrose: "dextrose monohydrate",
  glucose: "dextrose anhydrous",
};

export function substanceNamed(name: string): Substance {
  const known = substances.get(printedNames[name] ?? name);
  if (!known) throw new Error(`No substance ${name}`);
  return known;
}

/** One ion by itself, as in `1 mmol Ca2+`. */
export function bareIon(name: string, charge: number): Substance {
  return { name, ions: [{ name, charge, perFormula: 1 }], salts: [] };
}

/** Rounded half up to as many significant digits as `printed` shows, within one unit of its last digit. */
export function agreesWithPrinted(computed: Exact, printed: string): boolean {
  const figures = printed.replace(/^-?0*\.?0*/, "");
  const shown =
    figures.includes(".") || printed.includes(".")
      ? figures.replace(".", "").length
      : figures.replace(/0+$/, "").length;
  const exponent = computed.roundedToDigits(1).abs();
  let lead = 0;
  for (let x = exponent; x.isAtLeast(Exact.of(10)); x = x.over(Exact.of(10))) lead += 1;
  for (let x = exponent; x.isBelow(Exact.one) && !x.isZero(); x = x.times(Exact.of(10))) lead -= 1;
  const unit = Exact.of(`1e${lead - Math.max(shown, 1) + 1}`);
  return computed.roundedToDigits(Math.max(shown, 1)).minus(Exact.of(printed)).abs().isAtMost(unit);
}
