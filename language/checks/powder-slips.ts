/**
 * A powder whose label cannot be true is told at its stock. How many vials it takes and what room it leaves follow from that label, and
 * are not told again where the stock is seen with the recipe.
 */
import type { Stock } from "../model/declaration.ts";
import { isTold } from "./consequences.ts";
import type { RecipeContext } from "./context.ts";
import { isInSameFile } from "./same-file.ts";
import { isPowderMisfit } from "./stock/powder-figures-do-not-fit.ts";

export function isPowderSlip(stock: Stock | undefined, context: RecipeContext): boolean {
  return (
    stock !== undefined &&
    isInSameFile(stock.chunk, context.chunk) &&
    isTold("powder-figures-do-not-fit", context) &&
    isPowderMisfit(stock, context.lookup)
  );
}
