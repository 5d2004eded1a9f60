/** Figures that tell a product by what stands on its label: `3 vials of 500 mg`, `5 mg/mL ampoules`. */
import type { Recipe, Stock } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, volumeOf } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { measuresOf } from "../stated-measures.ts";
import type { TextFigure } from "./figures-in-text.ts";

const container = "(?:vials?|ampoules?|amps?|pre-?filled syringes?)";
const amount = "\\d+(?:\\.\\d+)? ?[A-Za-z]+ ?(?:in |per |\\/ ?)";
const containersOf = new RegExp(`\\b${container}(?: of| with| containing|,)? \\(?(?:[a-z]+ ){0,3}(?:${amount})?$`, "i");
const containersBehind = new RegExp(`^\\)? ?(?:(?:/ ?|in )\\d+(?:\\.\\d+)? ?mL )?${container}\\b`, "i");

/** What one vial or ampoule of the bench holds, where the words beside the figure speak of such a container. */
export function isHeldByProduct(figure: TextFigure, recipe: Recipe, lookup: Lookup): boolean {
  if (!containersOf.test(figure.before) && !containersBehind.test(figure.after)) return false;
  return recipe.materials.some(({ item }) => {
    const stock = lookup.find("stock", item.name);
    return stock !== undefined && heldIn(stock).some((held) => isSame(held, figure.quantity));
  });
}

/** Strengths on the labels of what stands on the bench, powders as they are dissolved. */
export function productStrengths(recipe: Recipe, lookup: Lookup): Quantity[] {
  return recipe.materials.flatMap(({ item }) => {
    const stock = lookup.find("stock", item.name);
    return [...(stock?.facts.all("strength") ?? []), ...(stock?.reconstitute?.all("gives") ?? [])]
      .flatMap(measuresOf)
      .flatMap(({ quantity }) => quantity ?? []);
  });
}

/** Amount and volume in one container, and its strengths. */
function heldIn(stock: Stock): Quantity[] {
  const contents = stock.facts.all("content").flatMap(measuresOf);
  const strengths = stock.facts.all("strength").flatMap(measuresOf);
  const fill = volumeOf(stock.facts.one("fill")?.slots.fill.quantity);
  const fills = stock.facts.all("fill").flatMap(measuresOf);
  return [...contents, ...strengths, ...fills].flatMap(({ quantity }) => {
    if (!quantity) return [];
    const [spelling, ...below] = quantity.unit.spelling.split("/");
    const unit = below.length === 1 && fill ? findUnit(spelling!).unit : undefined;
    if (!unit || !fill) return [quantity];
    const one = inBase({ value: Exact.one, unit });
    return [quantity, { value: inBase(quantity).times(fill).over(one), unit }];
  });
}

export function isSame(known: Quantity, said: Quantity): boolean {
  return known.unit.dimension === said.unit.dimension && inBase(known).equals(inBase(said));
}
