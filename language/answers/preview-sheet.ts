/**
 * The sheet of a recipe for the side preview: as `misce sheet` would print it at this moment, for a ranged order at its lower end. The
 * bar code is left out: it is drawn when a sheet is printed, and a preview must not be scanned.
 */
import { inputRanges, pointAt } from "../bench/order.ts";
import type { Library } from "../library.ts";
import { dateText } from "../model/dates.ts";
import type { Recipe } from "../model/declaration.ts";
import type { Spot } from "../model/slots.ts";
import { showQuantity } from "../quantities/quantity.ts";
import { isSheetRefusal } from "../sheet/sheet.ts";
import { sheetOf } from "../sheet/sheet-data.ts";
import { sheetHtml } from "../sheet/sheet-html.ts";

export interface PreviewSheet {
  html: string;
  /** For which order and moment: `weight 40 kg, prepared 2026-11-25 09:30`. */
  shownFor: string;
  /** The rows of the steps by the number printed on them, with their places in the recipe's chunk. */
  steps: { number: string; spot: Spot }[];
}

/** @param clock `09:30`; undefined result where no sheet can be made of the recipe as it stands */
export function previewSheet(library: Library, recipe: Recipe, clock: string): PreviewSheet | undefined {
  const point = pointAt(recipe, "from");
  const inputs = new Map([...point].map(([input, q]) => [input, `${q.value.toText()} ${q.unit.spelling}`]));
  const day = dateText(library.surroundings().asOf);
  const sheet = sheetOf(library, {
    recipe: recipe.name.name,
    inputs,
    bags: undefined,
    at: `${day}T${clock}`,
    timeZone: undefined,
    lots: new Map(),
    batch: false,
    number: undefined,
    gtin: undefined,
    fingerprint: undefined,
    revision: undefined,
  });
  if (isSheetRefusal(sheet)) return undefined;
  const ranged = new Set<string>(inputRanges(recipe).flatMap((r) => (r.range.isRange ? [r.input] : [])));
  const at = [...point].map(([input, q]) => {
    const end = ranged.has(input) ? " (the least that is ordered)" : "";
    return `${input.replace("-", " ")} ${showQuantity(q)}${end}`;
  });
  return {
    html: sheetHtml(sheet, () => ""),
    shownFor: [...at, `prepared ${day} ${clock}`].join(", "),
    steps: recipe.steps.map((step) => ({ number: String(step.number), spot: { start: step.start, end: step.end } })),
  };
}
