/** What a printed line gives the preparation beside its drug: `contains sodium 15.4 mmol`, `glucose 50 g`, `osmolarity 300 mOsm/L`. */
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isEndOfRange, ofAnother } from "./bare-figures.ts";
import { containedIn, solutions } from "./contained.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isNear, otherStrength, shownAll } from "./label-figures.ts";
import { besides } from "./label-substances.ts";
import { assertions, type Contradiction, fluidsOf } from "./words-against-order.ts";

const unit = (spelling: string) => findUnit(spelling).unit!;

const osmolar = unit("mOsm/L");
/** A measured osmolarity lies this far from the ideal one at most: ions in water count for some 0.9 of themselves (from memory). */
const lowest = Exact.of("0.85");
const highest = Exact.of("1.15");

export function contentsContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  for (const sentence of assertions(text)) {
    // `Phosphate 15 mmol with potassium 22 mmol` speaks of both.
    if (besides.test(sentence.replace(/\bwith\b/gi, "")) || otherStrength.test(sentence) || ofAnother.test(sentence))
      continue;
    for (const figure of figuresIn(sentence)) {
      if (isEndOfRange(figure)) continue;
      const found =
        figure.quantity.unit.dimension === osmolar.dimension
          ? osmolarityContradicted(figure, runs)
          : contentContradicted(figure, recipe, runs, lookup);
      if (found) return found;
    }
  }
  return undefined;
}

/** A line may repeat what the fluid's own label says. */
function contentContradicted(
  figure: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const contained = containedIn(figure, recipe, runs, lookup);
  if (!contained || contained.known.length === 0) return undefined;
  const { name, known } = contained;
  const { quantity, written } = figure;
  const ofFluids = fluidsOf(recipe, lookup).flatMap((fluid) =>
    (lookup.find("fluid", fluid)?.facts.all("contains") ?? []).flatMap(({ slots }) =>
      slots.what.name === name && slots.amount.quantity?.unit.dimension === quantity.unit.dimension
        ? [slots.amount.quantity]
        : [],
    ),
  );
  if ([...known, ...ofFluids].some((each) => isNear(each, quantity))) return undefined;
  return { said: `${name} ${written}`, ordered: shownAll(known), whole: "recipe" };
}

function osmolarityContradicted({ written, quantity }: TextFigure, runs: readonly Run[]): Contradiction | undefined {
  const known = solutions(runs).map(({ osmolarity }) => osmolarity);
  const said = inBase(quantity);
  const isPossible = known.some(
    (each) =>
      !each || !(said.isBelow(each.least.times(lowest)) || (each.most && said.isAbove(each.most.times(highest)))),
  );
  const [first] = known;
  if (!first || isPossible) return undefined;
  const shown = (value: Exact) =>
    showQuantity({ value: value.over(inBase({ value: Exact.one, unit: osmolar })), unit: osmolar }, 3);
  const ordered = first.most?.equals(first.least) ? shown(first.least) : `${shown(first.least)} at least`;
  return { said: written, ordered, whole: "recipe" };
}
