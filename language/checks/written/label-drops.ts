/**
 * Drops a minute in printed text, laid against the order and against mL/h beside them. How many drops are a mL is the giving set's: the text, the
 * tray or the order says it, or nothing is judged.
 */
import { dropFactor, dropsPerMinute } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { isEndOfRange } from "./bare-figures.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isRateNear, isVolumeRate, otherRate, ratesOf } from "./label-rates.ts";
import { near } from "./title-amounts.ts";
import { assertions, type Contradiction } from "./words-against-order.ts";

/** Nobody counts a part of a drop. */
const halfDrop = Exact.ratio(1, 2);

export function dropsContradicted(text: string, recipe: Recipe, runs: readonly Run[]): Contradiction | undefined {
  if (!/drops?\b|\bgtt/i.test(text) || runs.some((run) => run.unknown)) return undefined;
  const spelt = text.replace(/\b(drops?|gtt) (?:a|each|every) minute\b/gi, "$1/min");
  const stated = runs.flatMap((run) => dropFactor(run)?.factor ?? []);
  const said = figuresIn(spelt).filter(({ quantity }) => quantity.unit.dimension.key === "drops/volume");
  const [factor] = said;
  const other = said.find(({ quantity }) => stated.length > 0 && !stated.some((each) => isSame(each, quantity)));
  if (other)
    return { said: other.written, ordered: stated.map((each) => showQuantity(each)).join(" and "), whole: "recipe" };
  // Two sets in one text, each with its drops: nobody can say which is whose.
  if (said.some(({ quantity }) => !isSame(quantity, factor!.quantity))) return undefined;
  const set = factor?.quantity ?? stated[0];
  for (const sentence of assertions(spelt)) {
    const figures = figuresIn(sentence);
    for (const drops of figures.filter(isDropRate)) {
      const found =
        pairContradicted(drops, figures, recipe, runs, set) ?? orderContradicted(drops, sentence, recipe, runs, set);
      if (found) return found;
    }
  }
  return undefined;
}

function isDropRate(figure: TextFigure): boolean {
  return figure.quantity.unit.spelling === "drops/min" && !isEndOfRange(figure);
}

/** `25 mL/h (8 drops/min)` on a set of 60 drops/mL. */
function pairContradicted(
  drops: TextFigure,
  figures: readonly TextFigure[],
  recipe: Recipe,
  runs: readonly Run[],
  set: Quantity | undefined,
): Contradiction | undefined {
  const rates = set ? figures.filter(({ quantity }) => isVolumeRate(quantity)) : [];
  const [rate, second] = rates;
  const right = set && rate && !second ? dropsPerMinute(rate.quantity, set) : undefined;
  if (!set || !right || !rate || isNearDrops(right, drops.quantity)) return undefined;
  // Each may be reckoned from another volume of the bag: the one on its label, or all of it.
  const ordered = ratesOf(recipe, runs);
  const asDrops = ordered.flatMap((each) => dropsPerMinute(each, set) ?? []);
  if (
    asDrops.some((each) => isNearDrops(each, drops.quantity)) &&
    ordered.some((each) => isRateNear(each, rate.quantity, runs))
  )
    return undefined;
  return {
    said: `${drops.written} for ${rate.written}`,
    ordered: `${showQuantity(right, 3)} for ${rate.written} by ${showQuantity(set)}`,
    whole: "recipe",
  };
}

function orderContradicted(
  drops: TextFigure,
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  set: Quantity | undefined,
): Contradiction | undefined {
  if (otherRate.test(sentence)) return undefined;
  const ordered = (recipe.order?.all("infuse-at") ?? [])
    .flatMap(({ slots }) => slots.rate.quantity ?? [])
    .filter(({ unit }) => unit.dimension === drops.quantity.unit.dimension);
  const known =
    ordered.length > 0 ? ordered : set ? ratesOf(recipe, runs).flatMap((rate) => dropsPerMinute(rate, set) ?? []) : [];
  if (known.length === 0 || known.some((each) => isNearDrops(each, drops.quantity))) return undefined;
  const by = ordered.length > 0 || !set ? "" : ` by ${showQuantity(set)}`;
  return { said: drops.written, ordered: `${showQuantity(known[0]!, 3)}${by}` };
}

function isNearDrops(known: Quantity, said: Quantity): boolean {
  const [right, claimed] = [inBase(known), inBase(said)];
  const oneDrop = inBase({ value: halfDrop, unit: said.unit });
  const off = right.minus(claimed).abs();
  return off.isAtMost(oneDrop) || off.isAtMost(right.times(near));
}

function isSame(one: Quantity, other: Quantity): boolean {
  return inBase(one).equals(inBase(other));
}
