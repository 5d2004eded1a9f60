/** Exports for whoever holds a library only by what the command line knows of it. */
import { Library } from "../library.ts";
import type { SheetRefusal } from "../sheet/sheet.ts";
import { type PlacedRecipe, recipesIn, recipesNamed, recipesOf } from "../sheet/sheet-data.ts";
import { type Exported, type ExportRequest, exportSchema, fhirOf, type Withheld } from "./fhir.ts";

function whole(library: object): Library {
  if (library instanceof Library) return library;
  throw new TypeError("Only a library that this program opened itself can be exported.");
}

export const exporter = {
  schema: exportSchema,
  recipes: (library: object): PlacedRecipe[] => recipesOf(whole(library)),
  recipesNamed: (library: object, name: string): PlacedRecipe[] => recipesNamed(whole(library), name),
  recipesIn: (library: object, file: string): PlacedRecipe[] => recipesIn(whole(library), file),
  fhir: (library: object, request: ExportRequest): Exported | Withheld | SheetRefusal =>
    fhirOf(whole(library), request),
};
