/**
 * National standard infusion concentrations, each through a recipe: so much drug in so much finished liquid. Where the standard
 * prints a composition (amount in a total volume) that is made; where it prints only the concentration, 50 mL of it are made from
 * an order by concentration. Rows name their source in tests/reference/practice/standard-concentrations.json.
 */
import { describe, expect, it } from "vitest";
import { Exact } from "../../language/quantities/exact.ts";
import { type Quantity, times } from "../../language/quantities/quantity.ts";
import { findUnit } from "../../language/quantities/unit.ts";
import { concentrationIn, volumeIn } from "../worked/recipe.ts";
import { inUnit, measure } from "../worked/rows.ts";
import { madeUp } from "../worked/shapes/mixing.ts";
import published from "./practice/standard-concentrations.json";

interface Figure {
  value: string;
  unit: string;
}
interface Row {
  id: string;
  drug: string;
  concentration: Figure;
  example_composition?: { amount: Figure; total_volume: Figure };
  verified: string;
  source: { title: string; where: string };
}

/** UCUM code of the row → the word that a recipe has for it. */
const words: Readonly<Record<string, string>> = {
  "ug/mL": "mcg/mL",
  ug: "mcg",
  "[iU]/mL": "international units/mL",
  "[iU]": "international units",
};

function written(figure: Figure): string {
  const unit = words[figure.unit] ?? figure.unit;
  if (findUnit(unit).unit?.ucum !== figure.unit) throw new Error(`${figure.unit} has no word in a recipe.`);
  return `${figure.value} ${unit}`;
}

function made(row: Row): { concentration: Quantity; volume: Quantity; total: string } {
  const total = written(row.example_composition?.total_volume ?? { value: "50", unit: "mL" });
  const amount = row.example_composition ? written(row.example_composition.amount) : amountFor(row, total);
  // A stock so strong that any row's amount is a small part of the total, as a multiple of its own unit.
  const strong = `1000000 ${amount.replace(/^\S+ /, "")}/mL`;
  const result = madeUp(strong, amount, total);
  return { concentration: concentrationIn(result, "flask"), volume: volumeIn(result, "flask"), total };
}

function amountFor(row: Row, total: string): string {
  const amount = times(measure(written(row.concentration)), measure(total));
  return `${amount.value.toText()} ${amount.unit.spelling}`;
}

const rows = (published.rows as unknown as Row[]).filter((row) => row.verified === "read");

describe("standard concentrations that were read", () => {
  it("are 35, of which 20 print a composition", () => {
    expect(rows.length).toBe(35);
    expect(rows.filter((row) => row.example_composition).length).toBe(20);
  });
  for (const row of rows) {
    it(`${row.id}: ${row.concentration.value} ${row.concentration.unit} (${row.source.title}, ${row.source.where})`, () => {
      const { concentration, volume, total } = made(row);
      const [, unit = ""] = /^\S+ (.*)$/.exec(written(row.concentration)) ?? [];
      expect(inUnit(concentration, unit).value.equals(Exact.of(row.concentration.value))).toBe(true);
      expect(volume.value.equals(measure(total).value)).toBe(true);
      expect(inUnit(concentration, unit).value.equals(Exact.of(row.concentration.value).times(Exact.of(10)))).toBe(
        false,
      );
    });
  }
});
