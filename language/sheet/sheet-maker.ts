/** Sheets for whoever holds a library only by what the command line knows of it. */
import { Library } from "../library.ts";
import { isDateFault } from "../model/dates.ts";
import { momentAt, momentText } from "../model/moments.ts";
import type { DrawCode } from "./label-html.ts";
import type { Sheet, SheetRefusal, SheetRequest } from "./sheet.ts";
import { type PlacedRecipe, recipesIn, recipesNamed, recipesOf, sheetOf } from "./sheet-data.ts";
import { labelsHtml, sheetHtml } from "./sheet-html.ts";
import { sheetJson } from "./sheet-json.ts";

function whole(library: object): Library {
  if (library instanceof Library) return library;
  throw new TypeError("A sheet is made from a library that this program opened itself.");
}

export const sheetMaker = {
  recipes: (library: object): PlacedRecipe[] => recipesOf(whole(library)),
  recipesNamed: (library: object, name: string): PlacedRecipe[] => recipesNamed(whole(library), name),
  recipesIn: (library: object, file: string): PlacedRecipe[] => recipesIn(whole(library), file),
  timeZone: (library: object): string => whole(library).surroundings().policy.timeZone,
  wallClock: (now: Date, zone: string): string | undefined => {
    const shown = momentAt(Math.floor(now.getTime() / 1000), zone);
    return isDateFault(shown) ? undefined : momentText(shown);
  },
  sheet: (library: object, request: SheetRequest): Sheet | SheetRefusal => sheetOf(whole(library), request),
  json: sheetJson,
  html: (sheet: Sheet, labelsOnly: boolean, drawCode: DrawCode): string =>
    labelsOnly ? labelsHtml(sheet, drawCode) : sheetHtml(sheet, drawCode),
};
