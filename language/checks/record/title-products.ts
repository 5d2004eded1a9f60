/** Figures of a title that speak of the product and not of what is made of it: `calcium gluconate 10 % 30 mL`, `(10 mg/mL ampoules)`. */
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { ofAnother } from "./bare-figures.ts";
import type { TextFigure } from "./figures-in-text.ts";
import { isNear, productStrengths } from "./label-figures.ts";
import { isNamedLast } from "./words-against-order.ts";

const millilitre = findUnit("mL").unit!;
/** Behind a strength: `10 % 30 mL`, `1,000 units/mL 0.5 mL`. */
const behindStrength = /(?:%(?: w\/v)?|\/mL)\)?\s*$/;

/** Whether a figure is what the product is labelled with or how much of it is drawn, in words that say so. */
export function isOfProduct(
  figure: TextFigure,
  title: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): boolean {
  const { quantity, before, after } = figure;
  if (quantity.unit.dimension === millilitre.dimension) {
    const saysSo =
      behindStrength.test(before) ||
      /^ of\b/.test(after) ||
      orderedDrugs(recipe).some((drug) => isNamedLast(before, drug, lookup));
    return saysSo && runs.some((run) => drawnOf(run).some((volume) => isNear(volume, quantity)));
  }
  return ofAnother.test(title) && productStrengths(recipe, lookup).some((each) => isLike(each, quantity));
}

/** All that is drawn of each product that holds a drug. */
function drawnOf(run: Run): Quantity[] {
  const drawn = new Map<string, Exact>();
  for (const { how, from, moved } of run.steps.flatMap(({ movements }) => movements)) {
    const stock = how === "draw" ? from?.stock : undefined;
    if (stock?.facts.one("drug")) drawn.set(stock.name.name, (drawn.get(stock.name.name) ?? Exact.zero).plus(moved));
  }
  return [...drawn.values()].map((value) => ({ value, unit: millilitre }));
}

function isLike(known: Quantity, said: Quantity): boolean {
  return known.unit.dimension === said.unit.dimension && inBase(known).equals(inBase(said));
}
