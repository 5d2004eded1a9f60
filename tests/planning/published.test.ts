/** Published worked examples of containers to open (tests/reference/worked-examples/07), through the planning of a recipe. */
import { describe, expect, test } from "vitest";
import { planBatch } from "../../language/planning/plan.ts";
import { isSheetRefusal } from "../../language/sheet/sheet.ts";
import { type Row, rows } from "../worked/rows.ts";
import { ampoule, powder, type Shelf, wardLibrary } from "./ward-library.ts";

const counting = rows.filter(
  (r) =>
    r.kind === "vials-and-rounding" && r.verified === "read" && ["vial", "ampoule", "unit"].includes(r.answer.unit),
);

function containers(shelf: Shelf, weight: string | undefined): number {
  const inputs = new Map(weight === undefined ? [] : [["weight", weight]]);
  const plan = planBatch(wardLibrary(shelf), { recipe: "ward-dose", inputs, bags: undefined, mixStrengths: false });
  if (isSheetRefusal(plan)) throw new Error(plan.refusal);
  const [opening] = plan.drugs[0]!.options[0]!.openings;
  const [material] = plan.materials;
  // The recipe on the bench and the search must come to the same number.
  expect(material!.inAll).toBe(opening!.containers);
  return opening!.containers;
}

function shelfOf({ given }: Row): { shelf: Shelf; weight: string | undefined } {
  const text = (name: string) => (given[name] ? `${given[name].value} ${given[name].unit}` : "");
  const stock = given.vial
    ? powder(text("vial"))
    : // Counted by content; a strength of that content in 1 mL says the same.
      ampoule(`${text("ampoule") || text("unit_strength")}/mL`, "1 mL");
  const shelf: Shelf = {
    stocks: { one: stock },
    uses: "one",
    dose: `${text("dose") || text("dose_per_weight")} per flask`,
  };
  if (!given.weight) return { shelf, weight: undefined };
  return { shelf: { ...shelf, order: "weight 1 kg to 200 kg" }, weight: `${given.weight.value}kg` };
}

describe("containers to open", () => {
  test("all rows that count containers are here", () => {
    expect(counting.length).toBe(10);
  });

  test.each(counting.map((row) => [`${row.id}, ${row.source.title}`, row] as const))("%s", (_, row) => {
    const { shelf, weight } = shelfOf(row);
    expect(containers(shelf, weight)).toBe(Number(row.answer.value));
  });
});
