/** Concentration in bags and syringes, pump rates, dose rates, drops. */
import { asBodyWeight, over, type Quantity, type Refusal, times } from "../../../language/quantities/quantity.ts";
import { doseRate, dripRate, dripToPump, evenly, pumpRate } from "../../../language/quantities/rates.ts";
import { findUnit } from "../../../language/quantities/unit.ts";
import { concentrationIn, run, volumeIn } from "../recipe.ts";
import { given, inUnit, known, measure, type Row, text } from "../rows.ts";
import { liquidStock, weightOf } from "./drawing.ts";
import { madeUp } from "./mixing.ts";
import { written } from "./powder.ts";
import type { Shape } from "./shape.ts";

/** A stock strong enough to hold any row's amount in a small volume: the total volume is what the row prints. */
function strong(figure: string): string {
  const unit = figure.split(" ")[1]!;
  return `1000 ${unit}/mL`;
}

/** So much drug in so much finished liquid. */
function finished(row: Row, amount: string, volume: string): Quantity {
  return concentrationIn(madeUp(strong(text(row, amount)), text(row, amount), text(row, volume)), "flask");
}

function bag(row: Row, volume: string, steps: string, strength: string) {
  return run({
    stock: liquidStock(strength),
    more: `stock full-bag {\n  fluid  vehicle\n  container  bag\n  fill  ${text(row, volume)}\n  capacity  1000 L\n}`,
    materials: "bag  full-bag",
    steps,
  });
}

/** The volume of the addition is taken out first, so that the printed bag volume stays. */
function withdrawnFirst(row: Row, volume: string): Quantity {
  const mass = text(row, "mass");
  const steps = `withdraw added-volume from bag using spare and discard\n    draw ${mass} from source into syringe\n    inject syringe into bag`;
  return concentrationIn(bag(row, volume, steps, `1 ${mass.split(" ")[1]}/mL`), "bag");
}

/** Weight by the pound that the source itself uses (2.2 lb in a kg). */
function poundsAsKilograms(row: Row): Quantity {
  return times(given(row, "weight"), over(asBodyWeight(measure("1 kg"))!, measure(`${row.given.lb_per_kg!.value} lb`)));
}

/** Such a table holds for any weight, so an uncommon one is taken. */
const anyWeight = "3.7 kg";

function ruleOfThumb(row: Row, perWeight: string): Quantity | Refusal {
  const amount = text(row, perWeight);
  const result = run({
    stock: liquidStock("100000 mg/mL".replace("mg", amount.split(/[ /]/)[1]!)),
    order: `weight  ${anyWeight}\n    dose  ${amount} per flask\n    infuse-at  ${text(row, "rate")}`,
    steps: `draw dose from source into syringe\n    inject syringe into flask\n    make up flask to ${text(row, "volume")} with tank using spare`,
  });
  const rate = result.recipe.order!.one("infuse-at")!.slots.rate.quantity!;
  return doseRate(rate, concentrationIn(result, "flask"), findUnit(row.answer.unit).unit!, measure(anyWeight));
}

export const giving: readonly Shape[] = [
  {
    name: "pump rate from a dose by weight and a bag, weight in pounds",
    rows: ["06-001"],
    find: (row) => pumpRate(given(row, "dose_rate"), finished(row, "bag_mass", "bag_volume"), poundsAsKilograms(row)),
  },
  {
    name: "pump rate from a dose rate and a bag",
    rows: ["06-004"],
    find: (row) => pumpRate(given(row, "dose_rate"), finished(row, "bag_amount", "bag_volume")),
  },
  {
    name: "pump rate from a dose rate",
    rows: ["06-009", "06-036"],
    find: (row) => pumpRate(given(row, "dose_rate"), given(row, "concentration")),
  },
  {
    name: "pump rate from a dose by weight",
    rows: ["06-024", "06-025", "06-027", "06-028", "06-034"],
    find: (row) => pumpRate(given(row, "dose_rate"), given(row, "concentration"), given(row, "weight")),
  },
  {
    name: "drip rate",
    rows: ["06-005", "06-006", "06-007", "06-049"],
    find: (row) => dripRate(given(row, "volume"), given(row, "time"), given(row, "drop_factor")),
  },
  {
    name: "drip rate, the drug's volume counted",
    rows: ["06-050"],
    find: (row) => {
      const steps = `draw ${text(row, "drug_volume")} from source into syringe\n    inject syringe into bag`;
      return dripRate(
        volumeIn(bag(row, "bag_volume", steps, "1 mg/mL"), "bag"),
        given(row, "time"),
        given(row, "drop_factor"),
      );
    },
  },
  {
    name: "dose rate from drops",
    rows: ["06-010", "06-011"],
    find: (row) => {
      if (row.given.drops_per_second!.unit !== "1/s") throw new Error(row.id);
      const drops = over(measure(`${row.given.drops_per_second!.value} drops`), measure("1 s"));
      const rate = known(dripToPump(drops, given(row, "drop_factor")));
      return doseRate(rate, given(row, "concentration"), findUnit(row.answer.unit).unit!);
    },
  },
  {
    name: "dose rate from a pump rate",
    rows: ["06-014"],
    find: (row) =>
      doseRate(given(row, "rate"), given(row, "concentration"), findUnit(row.answer.unit).unit!, given(row, "weight")),
  },
  {
    name: "dose rate of a syringe made by weight",
    rows: ["06-015", "06-016", "06-017", "06-022", "06-023"],
    find: (row) => ruleOfThumb(row, "mass_per_weight"),
  },
  {
    name: "dose rate of a syringe made by weight, in units",
    rows: ["06-018", "06-020"],
    find: (row) => ruleOfThumb(row, "units_per_weight"),
  },
  {
    name: "concentration in a bag, volume withdrawn first",
    rows: ["06-031", "06-033"],
    find: (row) => withdrawnFirst(row, "bag_volume"),
  },
  {
    name: "concentration in a syringe, volume withdrawn first",
    rows: ["06-032"],
    find: (row) => withdrawnFirst(row, "volume"),
  },
  {
    name: "concentration from amount and volume",
    rows: ["06-040", "06-041", "06-043"],
    find: (row) => finished(row, "amount", "volume"),
  },
  {
    name: "percent when nothing is removed first",
    rows: ["06-047"],
    find: (row) => {
      const steps = `draw ${text(row, "added")} from source into syringe\n    inject syringe into bag`;
      return concentrationIn(bag(row, "bag_volume", steps, `${row.given.stock_percent!.value} % w/v`), "bag");
    },
  },
  {
    // mL of stock in one mL of bag, the two volumes cancelling to a plain share.
    name: "stock volume per mL of bag",
    rows: ["06-048"],
    find: (row) =>
      over(measure(`${row.given.target_percent!.value} % w/v`), measure(`${row.given.stock_percent!.value} % w/v`)),
  },
  { name: "amount in an hour", rows: ["06-053"], find: (row) => evenly(given(row, "amount"), given(row, "time")) },
  {
    name: "amount over a time by weight",
    rows: ["02-016", "02-017"],
    find: (row) => times(times(given(row, "dose_rate"), weightOf(row)), given(row, "time")),
  },
  {
    name: "dose rate after two dilution steps",
    rows: ["08-024"],
    find: (row) => {
      const perWeight = written(given(row, "step1"));
      const drawn = written(inUnit(times(given(row, "drawn_per_weight"), asBodyWeight(measure(anyWeight))!), "mL"));
      const result = madeUp(perWeight, drawn, text(row, "final_volume"));
      return doseRate(
        given(row, "rate"),
        concentrationIn(result, "flask"),
        findUnit(row.answer.unit).unit!,
        measure(anyWeight),
      );
    },
  },
];
