/** What a figure of a printed text would have to be, counted as the ordered drugs are. */
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { statedForPatient } from "./forms-for-patients.ts";
import { strengthsOf } from "./label-figures.ts";
import { dosesGiven } from "./undeclared-forms.ts";

/** The doses, given and as they are stated for each kg; what the finished containers hold for a strength. */
export function knownAmounts(
  { quantity }: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Quantity[] {
  if (!quantity.unit.dimension.key.endsWith("/volume"))
    return [...dosesGiven(runs), ...statedForPatient(quantity, recipe).map((stated) => stated.quantity)];
  return orderedDrugs(recipe).flatMap((drug) => strengthsOf(drug, quantity, undefined, recipe, runs, lookup));
}
