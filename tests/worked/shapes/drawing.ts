/** Volume to draw, and what a volume holds: a stock of the row's strength, one `draw`. */
import { asBodyWeight, over, type Quantity, times } from "../../../language/quantities/quantity.ts";
import { amountIn, movedBy, type Parts, run } from "../recipe.ts";
import { given, type Row, text } from "../rows.ts";
import type { Shape } from "./shape.ts";

/** `60 mg` and `2 mL` on the label as the strength that the language writes, so many in one mL. */
export function labelled(row: Row, amount = "stock_amount", volume = "stock_volume"): string {
  const strength = over(given(row, amount), given(row, volume));
  if (!strength.value.terminates()) throw new Error(`${row.id}: a strength per mL with no end`);
  return `${strength.value.toText()} ${strength.unit.spelling}`;
}

export function liquidStock(strength: string, fill = "100 L"): string {
  return `container  vial\n  strength  ${strength}\n  fill  ${fill}\n  capacity  1000 L`;
}

/** A step that draws what is asked from the stock. */
export function drawn(strength: string, what: string, more: Partial<Parts> = {}) {
  return run({ stock: liquidStock(strength), steps: `draw ${what} from source into syringe`, ...more });
}

const drug: Record<string, string> = { mmol: 'formula  "KCl"\n  ion  potassium charge 1\n  ion  chloride charge 1' };

export const drawing: readonly Shape[] = [
  {
    name: "volume that holds a dose",
    rows: (
      "01-003 01-004 01-005 01-007 01-009 01-010 01-011 01-012 01-014 01-019 01-020 01-023 01-024 01-025 01-026 01-027 " +
      "01-028 01-029 01-030"
    ).split(" "),
    find: (row) => {
      // The ampoules in mmol are of potassium chloride, whose formula the language turns into mass and back.
      const facts = drug[row.given.dose!.unit];
      const order = `dose  ${text(row, "dose")} per syringe`;
      return movedBy(drawn(labelled(row), "dose", { order, ...(facts ? { drug: facts } : {}) }), 1);
    },
  },
  {
    name: "mass that a volume holds",
    rows: ["01-032", "01-033"],
    find: (row) => amountIn(drawn(labelled(row), text(row, "volume")), "syringe"),
  },
  {
    name: "mass that a volume of a stated strength holds",
    rows: ["01-031"],
    find: (row) => amountIn(drawn(text(row, "stock_strength"), text(row, "volume")), "syringe"),
  },
  {
    name: "mass that a volume of a percent strength holds",
    rows: "04-044 04-046 04-047 04-048 04-052 04-053 04-054 04-055 04-058".split(" "),
    find: (row) => amountIn(drawn(text(row, "percent"), text(row, "volume")), "syringe"),
  },
  {
    name: "mass in a volume after reconstitution",
    rows: ["03-013", "03-014"],
    find: (row) => amountIn(drawn(text(row, "concentration_before"), text(row, "volume_drawn")), "syringe"),
  },
  {
    name: "volume of a dose by weight",
    rows: ["02-018", "02-019", "02-021"],
    find: (row) => movedBy(drawn(text(row, "concentration"), "dose", { order: perKilogram(row) }), 1),
  },
  {
    name: "mass of a dose by weight",
    rows: ["02-009", "02-012", "02-014"],
    find: (row) => amountIn(drawn("1 g/mL", "dose", { order: perKilogram(row) }), "syringe"),
  },
  {
    // 125 mg in 3 mL has no end as mg in one mL, so that no label of it can be written; the quotient itself is exact.
    name: "volume of a dose by weight, strength without an end",
    rows: ["02-013"],
    find: (row) =>
      over(
        times(given(row, "dose_per_weight"), weightOf(row)),
        over(given(row, "stock_amount"), given(row, "stock_volume")),
      ),
  },
];

export function weightOf(row: Row): Quantity {
  return asBodyWeight(given(row, "weight"))!;
}

export function perKilogram(row: Row): string {
  return `weight  ${text(row, "weight")}\n    dose  ${text(row, "dose_per_weight")} per syringe`;
}
