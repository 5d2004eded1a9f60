/** How many containers, doses rounded to a step, weighing and aliquots, and weights by the pound. */
import { minus, over, type Quantity, type Refusal, times } from "../../../language/quantities/quantity.ts";
import { countOf, movedBy, run } from "../recipe.ts";
import { given, known, measure, quantity, type Row, text } from "../rows.ts";
import { drawn, perKilogram, weightOf } from "./drawing.ts";
import { written } from "./powder.ts";
import type { Shape } from "./shape.ts";

/** Vials are opened one after another until the dose is drawn: the run finds how many. */
function vials(order: string, content: string): Quantity {
  const result = run({
    stock: `container  powder-vial\n  content  ${content}\n  capacity  10 mL\n  displacement  0 mL`,
    order,
    steps: `reconstitute each of source with 1 mL from tank using spare\n    swirl source until dissolved\n    draw dose from source into syringe`,
  });
  return countOf(result, "source");
}

/** The dose rounded to what a step of volume holds. */
function rounded(row: Row, way: string, step: Quantity): Quantity {
  const dose = times(step, given(row, "concentration"));
  return movedBy(
    drawn(text(row, "concentration"), "dose", {
      order: `${perKilogram(row)}\n    round  dose ${way} ${written(dose)}`,
    }),
    1,
  );
}

/** An aliquot holds the dose; the mixture is as many aliquots as doses were weighed. */
function diluent(weighed: Quantity, multiple: Quantity, aliquot: Quantity): Quantity | Refusal {
  return minus(times(multiple, aliquot), weighed);
}

export const counting: readonly Shape[] = [
  {
    name: "vials for a dose by weight",
    rows: ["07-001", "07-002", "07-003", "07-004", "07-006", "07-007"],
    find: (row) => vials(perKilogram(row), text(row, "vial")),
  },
  {
    name: "ampoules for a dose",
    rows: ["07-029"],
    find: (row) => {
      const ampoule = {
        stock: `container  ampoule\n  strength  ${written(over(given(row, "ampoule"), measure("2 mL")))}\n  fill  2 mL`,
      };
      const steps = "open source\n    draw dose from source into syringe";
      return countOf(run({ ...ampoule, order: `dose  ${text(row, "dose")} per syringe`, steps }), "source");
    },
  },
  {
    name: "units of a strength for a dose",
    rows: ["07-032", "07-033", "07-034"],
    find: (row) => vials(`dose  ${text(row, "dose")} per syringe`, text(row, "unit_strength")),
  },
  {
    name: "volume rounded up to a step",
    rows: "07-011 07-013 07-015 07-016 07-018 07-019 07-020 07-022 07-023 07-024 07-026".split(" "),
    find: (row) => rounded(row, "upward to", given(row, "step")),
  },
  {
    name: "volume rounded to the nearest mL",
    rows: ["07-027"],
    find: (row) => rounded(row, "to nearest", measure("1 mL")),
  },
  {
    name: "volume of one of several doses of a day",
    rows: ["02-005"],
    find: (row) => {
      const day = times(given(row, "dose_per_weight_per_day"), weightOf(row));
      if (row.given.doses_per_day!.unit !== "1/d") throw new Error(row.id);
      const perDay = over(quantity({ value: row.given.doses_per_day!.value, unit: "1" }), measure("24 h"));
      return over(over(day, perDay), given(row, "stock_strength"));
    },
  },
  // By the exact pound; the source's 2.2 lb in a kg gives the same once rounded as it rounds.
  { name: "weight in kg", rows: ["02-003"], find: (row) => given(row, "weight") },
  {
    name: "volume by steps of weight",
    rows: ["02-006", "02-007", "02-008"],
    find: (row) => times(over(given(row, "volume_per_step"), given(row, "weight_step")), given(row, "weight")),
  },
  {
    name: "mass by the pound",
    rows: ["02-011"],
    find: (row) => {
      if (row.given.dose_per_weight!.unit !== "mg/lb") throw new Error(row.id);
      return times(over(measure(`${row.given.dose_per_weight!.value} mg`), measure("1 lb")), given(row, "weight"));
    },
  },
  {
    name: "least that can be weighed, error allowed",
    rows: ["08-001", "08-002"],
    find: (row) => over(given(row, "sensitivity"), given(row, "allowed_error")),
  },
  {
    name: "least that can be weighed, accuracy asked",
    rows: ["08-004"],
    find: (row) => over(given(row, "sensitivity"), known(minus(measure("100 %"), given(row, "accuracy")))),
  },
  { name: "multiple weighed", rows: ["08-005"], find: (row) => over(given(row, "drug_weighed"), given(row, "dose")) },
  {
    name: "multiple of the least",
    rows: ["08-010"],
    find: (row) => over(given(row, "minimum_weighable"), given(row, "dose")),
  },
  {
    name: "diluent of an aliquot",
    rows: ["08-006"],
    find: (row) => diluent(given(row, "drug_weighed"), given(row, "multiple"), given(row, "aliquot")),
  },
  {
    name: "diluent of an aliquot, multiple from the dose",
    rows: ["08-009"],
    find: (row) =>
      diluent(given(row, "drug_weighed"), over(given(row, "drug_weighed"), given(row, "dose")), given(row, "aliquot")),
  },
  {
    // Drug weighed and aliquot are both the least that can be weighed.
    name: "diluent where the least is weighed",
    rows: ["08-011", "08-013"],
    find: (row) => {
      const least = given(row, "minimum_weighable");
      return diluent(least, over(least, given(row, "dose")), least);
    },
  },
  { name: "drug to weigh", rows: ["08-017"], find: (row) => times(given(row, "multiple"), given(row, "dose")) },
  {
    name: "drug in an aliquot",
    rows: ["08-007"],
    find: (row) => times(over(given(row, "drug_weighed"), given(row, "mixture")), given(row, "aliquot")),
  },
];
