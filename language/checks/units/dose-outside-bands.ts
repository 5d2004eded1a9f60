import { happened } from "../../bench/run.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { bandsExample } from "./band-rows.ts";

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
    const fact = recipe.order?.one("dose");
    const bands = fact?.slots.bands;
    const declared = bands && lookup.find("bands", bands.name);
    if (!fact || !bands || !declared) return;
    for (const run of runs) {
      const dose = run.doses[0];
      if (!dose?.calculated || dose.given) continue;
      // A step that draws the dose says at its own place that it cannot be computed.
      if (happened(run, "figure-not-known").some(({ data }) => data.figure === "dose")) continue;
      const ends = declared.facts.all("from").map(({ slots }) => `${slots.low.written} to below ${slots.high.written}`);
      yield { at: fact.slots.dose, dose: dose.calculated, bands: bands.name, ends };
    }
  },
  say: ({ dose, bands, ends }) => ({
    text: `The calculated dose of ${showQuantity(dose)} is in no band of ${bands} (${ends.length === 0 ? "it has none" : `${ends.length > 3 ? `${ends[0]} … ${ends.at(-1)}` : ends.join(", ")}`}). Add a band, or narrow the range of the order.`,
  }),
});
