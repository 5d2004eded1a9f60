/**
 * The units that a recipe may use, one row each, and a few customary ones that stand only in published conversions.
 * Base units: g, mL, mmol, mEq, mOsm, unit of activity, h, calendar day, calendar month, kg of body weight, m2, mm.
 * Sizes: SI prefixes and the litre as in The Unified Code for Units of Measure, ucum-essence 2.2 (2024). Customary units:
 * USP General Notices, weights and measures, and the exact inch and pound behind them.
 */
import type { Axis } from "./dimension.ts";

/** Units of activity of different makers of the standard are not exchanged for each other. */
export type ActivityKind = "unit" | "international" | "usp";

export interface UnitRow {
  /** Canonical trade spelling. */
  spelling: string;
  /** Other spellings that are as safe and draw no finding. */
  also?: readonly string[];
  /** For exactly one: `1 unit`, `1 day`. */
  singular?: string;
  ucum: string;
  axis: Axis;
  /** In base units of its axis, a decimal or `a/b`. */
  size: string;
  activityKind?: ActivityKind;
  /** May not stand below the line, or above it in a compound. */
  alone?: true;
  /** Only in published conversions; a recipe is asked for a metric unit. */
  notInRecipes?: true;
}

const masses: readonly UnitRow[] = [
  { spelling: "kg", also: ["kilogram", "kilograms"], ucum: "kg", axis: "mass", size: "1000" },
  { spelling: "g", also: ["gram", "grams"], ucum: "g", axis: "mass", size: "1" },
  { spelling: "mg", also: ["milligram", "milligrams"], ucum: "mg", axis: "mass", size: "0.001" },
  { spelling: "mcg", also: ["microgram", "micrograms"], ucum: "ug", axis: "mass", size: "1e-6" },
  // "ng" is on the published list of error-prone notation, so the word is the canonical spelling (unit-spellings.ts).
  { spelling: "nanograms", also: ["nanogram"], singular: "nanogram", ucum: "ng", axis: "mass", size: "1e-9" },
  { spelling: "pg", also: ["picogram", "picograms"], ucum: "pg", axis: "mass", size: "1e-12" },
];

const volumes: readonly UnitRow[] = [
  { spelling: "L", also: ["litre", "litres"], ucum: "L", axis: "volume", size: "1000" },
  { spelling: "dL", also: ["decilitre", "decilitres"], ucum: "dL", axis: "volume", size: "100" },
  { spelling: "cL", also: ["centilitre", "centilitres"], ucum: "cL", axis: "volume", size: "10" },
  { spelling: "mL", also: ["millilitre", "millilitres"], ucum: "mL", axis: "volume", size: "1" },
  { spelling: "mcL", also: ["microlitre", "microlitres"], ucum: "uL", axis: "volume", size: "0.001" },
];

const amounts: readonly UnitRow[] = [
  { spelling: "mol", ucum: "mol", axis: "moles", size: "1000" },
  { spelling: "mmol", also: ["millimole", "millimoles"], ucum: "mmol", axis: "moles", size: "1" },
  { spelling: "mcmol", also: ["micromole", "micromoles"], ucum: "umol", axis: "moles", size: "0.001" },
  { spelling: "nmol", also: ["nanomole", "nanomoles"], ucum: "nmol", axis: "moles", size: "1e-6" },
  { spelling: "Eq", ucum: "eq", axis: "equivalents", size: "1000" },
  { spelling: "mEq", also: ["milliequivalent", "milliequivalents"], ucum: "meq", axis: "equivalents", size: "1" },
  { spelling: "Osm", ucum: "osm", axis: "osmoles", size: "1000" },
  { spelling: "mOsm", also: ["milliosmole", "milliosmoles"], ucum: "mosm", axis: "osmoles", size: "1" },
];

/** UCUM's `U` is the enzyme unit, so plain units of activity carry the code for an arbitrary unit. */
const activities: readonly UnitRow[] = [
  {
    spelling: "units",
    also: ["unit"],
    singular: "unit",
    ucum: "[arb'U]",
    axis: "activity",
    size: "1",
    activityKind: "unit",
  },
  {
    spelling: "milliunits",
    also: ["milliunit"],
    singular: "milliunit",
    ucum: "10*-3.[arb'U]",
    axis: "activity",
    size: "0.001",
    activityKind: "unit",
  },
  {
    spelling: "international units",
    also: [
      "international unit",
      "International Units",
      "International Unit",
      "International units",
      "International unit",
    ],
    singular: "international unit",
    ucum: "[iU]",
    axis: "activity",
    size: "1",
    activityKind: "international",
  },
  {
    spelling: "USP units",
    also: ["USP unit", "USP Units", "USP Unit"],
    singular: "USP unit",
    ucum: "[USP'U]",
    axis: "activity",
    size: "1",
    activityKind: "usp",
  },
];

/**
 * `h` is elapsed time and `day` a date on the wall calendar: never exchanged. Below the line (`mg/day`) a day counts as 24 h
 * (`ratesPerDay`), because a rate has no date.
 */
const times: readonly UnitRow[] = [
  { spelling: "s", also: ["second", "seconds"], ucum: "s", axis: "time", size: "1/3600" },
  { spelling: "min", also: ["minute", "minutes"], ucum: "min", axis: "time", size: "1/60" },
  { spelling: "h", also: ["hour", "hours"], ucum: "h", axis: "time", size: "1" },
  { spelling: "days", also: ["day"], singular: "day", ucum: "d", axis: "calendarDays", size: "1", alone: true },
  { spelling: "weeks", also: ["week"], singular: "week", ucum: "wk", axis: "calendarDays", size: "7", alone: true },
  {
    spelling: "months",
    also: ["month"],
    singular: "month",
    ucum: "mo",
    axis: "calendarMonths",
    size: "1",
    alone: true,
  },
  { spelling: "years", also: ["year"], singular: "year", ucum: "a", axis: "calendarMonths", size: "12", alone: true },
];

const others: readonly UnitRow[] = [
  { spelling: "m2", ucum: "m2", axis: "area", size: "1" },
  { spelling: "mm", also: ["millimetre", "millimetres"], ucum: "mm", axis: "length", size: "1", alone: true },
  {
    spelling: "micrometre",
    also: ["micrometres", "micron", "microns"],
    ucum: "um",
    axis: "length",
    size: "0.001",
    alone: true,
  },
  { spelling: "C", also: ["°C", "degrees"], ucum: "Cel", axis: "temperature", size: "1", alone: true },
  { spelling: "gauge", ucum: "", axis: "gauge", size: "1", alone: true },
  { spelling: "drops", also: ["drop"], singular: "drop", ucum: "[drp]", axis: "drops", size: "1" },
  // The area under the curve of a drug in plasma, in mg·min/mL: no amount before the patient's clearance is known.
  { spelling: "AUC", ucum: "mg.min/mL", axis: "exposure", size: "1", alone: true },
  { spelling: "pH", ucum: "[pH]", axis: "pH", size: "1", alone: true },
];

const customary: readonly UnitRow[] = [
  { spelling: "lb", ucum: "[lb_av]", axis: "mass", size: "453.59237", alone: true, notInRecipes: true },
  { spelling: "oz", ucum: "[oz_av]", axis: "mass", size: "28.349523125", alone: true, notInRecipes: true },
  {
    spelling: "gr",
    also: ["grain", "grains"],
    ucum: "[gr]",
    axis: "mass",
    size: "0.06479891",
    alone: true,
    notInRecipes: true,
  },
  {
    spelling: "gal",
    also: ["US gal"],
    ucum: "[gal_us]",
    axis: "volume",
    size: "3785.411784",
    alone: true,
    notInRecipes: true,
  },
  {
    spelling: "fl oz",
    also: ["US fl oz"],
    ucum: "[foz_us]",
    axis: "volume",
    size: "29.5735295625",
    alone: true,
    notInRecipes: true,
  },
  {
    spelling: "tsp",
    also: ["US tsp"],
    ucum: "[tsp_us]",
    axis: "volume",
    size: "4.92892159375",
    alone: true,
    notInRecipes: true,
  },
  { spelling: "dm3", ucum: "dm3", axis: "volume", size: "1000", alone: true, notInRecipes: true },
];

export const unitRows: readonly UnitRow[] = [
  ...masses,
  ...volumes,
  ...amounts,
  ...activities,
  ...times,
  ...others,
  ...customary,
];

/** What stands below the line instead of the row of the same spelling. */
export const rowsBelowTheLine: readonly UnitRow[] = [
  { spelling: "kg", also: ["kilogram", "kilograms"], ucum: "kg", axis: "bodyWeight", size: "1" },
  { spelling: "day", also: ["days"], ucum: "d", axis: "time", size: "24" },
  { spelling: "week", ucum: "wk", axis: "time", size: "168" },
];

/** Percent with its kind is a concentration or a share; without it only a tolerance. */
export interface PercentRow {
  spelling: string;
  also?: readonly string[];
  ucum: string;
  exponents: Partial<Record<Axis, number>>;
  size: string;
}

export const percentRows: readonly PercentRow[] = [
  { spelling: "%", also: ["percent"], ucum: "%", exponents: { percent: 1 }, size: "0.01" },
  { spelling: "% w/v", also: ["%w/v"], ucum: "g/dL", exponents: { mass: 1, volume: -1 }, size: "0.01" },
  { spelling: "% v/v", also: ["%v/v"], ucum: "mL/dL", exponents: { "volume/volume": 1 }, size: "0.01" },
  { spelling: "% w/w", also: ["%w/w"], ucum: "g/hg", exponents: { "mass/mass": 1 }, size: "0.01" },
];
