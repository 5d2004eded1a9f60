import { rowAt } from "../../bench/order-rows.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { bandsExample, fallsInNoBand } from "./band-rows.ts";

const banded = (from: string): string =>
  bandsExample(
    ["    dose            4 g per bag", `    dose            ${from} banded by magnesium-bands per bag`],
    ['"Magnesium sulfate 4 g in', '"Magnesium sulfate in'],
    ["  from  4 g below 5 g gives 4.5 g", "  from  4 g below 5 g gives 4 g"],
  );

export const doseOutsideBands = recipeCheck({
  name: "dose-outside-bands",
  family: "units",
  severity: "error",
  title: "A calculated dose that falls into no band",
  why: "Nothing is computed from it, and each bench would take the nearest band or none.",
  source: "common practice",
  bad: banded("6 g"),
  good: banded("4.2 g"),
  *find({ recipe, runs, lookup }) {
    for (const run of runs) {
      const fact = rowAt(recipe.order?.all("dose"), { point: run.point, doses: [] });
      const bands = fact?.slots.bands;
      const declared = bands && lookup.find("bands", bands.name);
      const [dose] = run.doses;
      if (!declared || !dose?.calculated || !fallsInNoBand(dose, run)) continue;
      const ends = declared.facts.all("from").map(({ slots }) => `${slots.low.written} to below ${slots.high.written}`);
      yield { at: fact.slots.dose, dose: dose.calculated, bands: bands.name, ends };
    }
  },
  say: ({ dose, bands, ends }) => ({
    text: `The calculated dose of ${showQuantity(dose)} is in no band of ${bands} (${ends.length === 0 ? "it has none" : `${ends.length > 3 ? `${ends[0]} … ${ends.at(-1)}` : ends.join(", ")}`}). Add a band, or narrow the range of the order.`,
  }),
});
