/** Working and plans for whoever holds a library only by what the command line knows of it. */
import { type Explained, type ExplainRequest, explainFigures } from "../answers/explain.ts";
import { Library } from "../library.ts";
import type { SheetRefusal } from "../sheet/sheet.ts";
import { type PlacedRecipe, recipesIn, recipesNamed, recipesOf } from "../sheet/sheet-data.ts";
import { type Plan, type PlanRequest, planBatch } from "./plan.ts";
import { type Shortage, shortageOf } from "./shortage.ts";

function whole(library: object): Library {
  if (library instanceof Library) return library;
  throw new TypeError("Figures are explained of a library that this program opened itself.");
}

export const adviser = {
  recipes: (library: object): PlacedRecipe[] => recipesOf(whole(library)),
  recipesNamed: (library: object, name: string): PlacedRecipe[] => recipesNamed(whole(library), name),
  recipesIn: (library: object, file: string): PlacedRecipe[] => recipesIn(whole(library), file),
  explain: (library: object, request: ExplainRequest): Explained | SheetRefusal =>
    explainFigures(whole(library), request),
  plan: (library: object, request: PlanRequest): Plan | SheetRefusal => planBatch(whole(library), request),
  shortage: (library: object, stock: string): Shortage | SheetRefusal => shortageOf(whole(library), stock),
};
