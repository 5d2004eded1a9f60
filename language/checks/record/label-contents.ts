/** Ions and osmolarity that a printed line gives the preparation beside its drug: `contains sodium 15.4 mmol`, `osmolarity 300 mOsm/L`. */
import type { Run } from "../../bench/run.ts";
import { type Solution, solutionOf } from "../../bench/solution.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { isEndOfRange, ofAnother } from "./bare-figures.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isNear, otherStrength, shownAll } from "./label-figures.ts";
import { besides } from "./label-substances.ts";
import { assertions, type Contradiction, fluidsOf, wordsOf } from "./words-against-order.ts";

const unit = (spelling: string) => findUnit(spelling).unit!;

/** How an amount of an ion may be counted, and where the solution says it. */
const counts = [
  { unit: unit("mmol"), figure: "mmol" },
  { unit: unit("mEq"), figure: "mEq" },
  { unit: unit("mmol/L"), figure: "mmolPerLitre" },
  { unit: unit("mEq/L"), figure: "mEqPerLitre" },
] as const;

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
    if (besides.test(sentence) || otherStrength.test(sentence) || ofAnother.test(sentence)) continue;
    for (const figure of figuresIn(sentence)) {
      if (isEndOfRange(figure)) continue;
      const { dimension } = figure.quantity.unit;
      const count = counts.find((each) => each.unit.dimension === dimension);
      const found = count
        ? ionContradicted(figure, count, recipe, runs, lookup)
        : dimension === osmolar.dimension
          ? osmolarityContradicted(figure, runs)
          : undefined;
      if (found) return found;
    }
  }
  return undefined;
}

/** An ion of the drug is its dose or its strength, which is laid against the order. */
function ionContradicted(
  { written, quantity, before, after }: TextFigure,
  count: (typeof counts)[number],
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const next = wordsOf(after.replace(/^\s*of\b/, ""))[0];
  const beside = new Set([wordsOf(before).at(-1), next]);
  const ofDrugs = new Set(
    orderedDrugs(recipe).flatMap((name) => lookup.find("drug", name)?.substance.ions.map((ion) => ion.name) ?? []),
  );
  const known: Quantity[] = [];
  let name: string | undefined;
  for (const { ions } of solutions(runs)) {
    const ion = ions.find((each) => beside.has(each.ion) && !ofDrugs.has(each.ion));
    if (!ion) continue;
    name = ion.ion;
    const value = ion[count.figure];
    // What cannot be worked out is laid against nothing.
    if (!value) return undefined;
    known.push({ value, unit: count.unit });
  }
  if (name === undefined) return undefined;
  // A line may repeat what the fluid's own label says.
  const ofFluids = fluidsOf(recipe, lookup).flatMap((fluid) =>
    (lookup.find("fluid", fluid)?.facts.all("contains") ?? []).flatMap(({ slots }) =>
      slots.what.name === name && slots.amount.quantity?.unit.dimension === count.unit.dimension
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

function solutions(runs: readonly Run[]): Solution[] {
  return runs.flatMap((run) => run.finals.flatMap((vessel) => solutionOf(run, vessel) ?? []));
}
