/** What a printed line gives the preparation beside its drug: `contains sodium 15.4 mmol`, `glucose 50 g`, `osmolarity 300 mOsm/L`. */
import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit, type Unit } from "../../quantities/unit.ts";
import { absentIonBeside } from "./absent-ions.ts";
import { amountsInVolumes } from "./amounts-in-volumes.ts";
import { isEndOfRange, ofAnother } from "./bare-figures.ts";
import { containedIn, ionCounts, namedBeside, solutions } from "./contained.ts";
import { figuresIn, type TextFigure } from "./figures-in-text.ts";
import { isNear, otherStrength, shownAll } from "./label-figures.ts";
import { besides } from "./label-substances.ts";
import { isInAllOfIt } from "./label-volumes.ts";
import { assertions, type Contradiction, fluidsOf } from "./words-against-order.ts";

const osmolar = findUnit("mOsm/L").unit!;
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
      const { dimension } = figure.quantity.unit;
      const count = ionCounts.find((each) => each.unit.dimension === dimension);
      const found = count
        ? ionContradicted(figure, count, sentence, recipe, runs, lookup)
        : dimension === osmolar.dimension
          ? osmolarityContradicted(figure, runs)
          : massContradicted(figure, recipe, runs, lookup);
      if (found) return found;
    }
  }
  return undefined;
}

/** The ion that a figure names and that the drugs do not bring, as each finished container holds it. */
function ionOf(figure: TextFigure, recipe: Recipe, runs: readonly Run[], lookup: Lookup) {
  const name = namedBeside(figure, recipe, runs, lookup);
  const found = solutions(runs).flatMap(({ ions }) => ions.find(({ ion }) => ion === name) ?? []);
  return name === undefined || found.length === 0 ? undefined : { name, found };
}

/** `Glucose 50 g`: what is counted by its mass. */
function massContradicted(
  figure: TextFigure,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const contained = containedIn(figure, recipe, runs, lookup);
  if (!contained || contained.known.length === 0) return undefined;
  const { name, known } = contained;
  if ([...known, ...inFluids(name, figure.quantity.unit, recipe, lookup)].some((each) => isNear(each, figure.quantity)))
    return undefined;
  return { said: `${name} ${figure.written}`, ordered: shownAll(known), whole: "recipe" };
}

/** What the labels of the fluids say of it: a line may repeat that. */
function inFluids(name: string, { dimension }: Unit, recipe: Recipe, lookup: Lookup): Quantity[] {
  return fluidsOf(recipe, lookup).flatMap((fluid) =>
    (lookup.find("fluid", fluid)?.facts.all("contains") ?? []).flatMap(({ slots }) =>
      slots.what.name === name && slots.amount.quantity?.unit.dimension === dimension ? [slots.amount.quantity] : [],
    ),
  );
}

function ionContradicted(
  figure: TextFigure,
  count: (typeof ionCounts)[number],
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const ion = ionOf(figure, recipe, runs, lookup);
  if (!ion) {
    const absent = absentIonBeside(figure, recipe, runs, lookup);
    return absent === undefined
      ? undefined
      : { said: `${absent} ${figure.written}`, ordered: `no ${absent}`, whole: "recipe" };
  }
  const pair = concentrationOf(figure, count, sentence, recipe, runs);
  const { figure: counted, unit } = pair?.count ?? count;
  const said = pair?.quantity ?? figure.quantity;
  const values = ion.found.map((each) => each[counted]);
  const known = values.flatMap((value) => (value ? [{ value, unit }] : []));
  // What cannot be worked out is laid against nothing.
  if (known.length < values.length) return undefined;
  const ofFluids = inFluids(ion.name, unit, recipe, lookup);
  if ([...known, ...ofFluids].some((each) => isNear(each, said))) return undefined;
  const whole = "recipe";
  if (!pair) return { said: `${ion.name} ${figure.written}`, ordered: shownAll(known), whole };
  const inAll = known.map(({ value }) => ({ value: value.times(pair.litres), unit: count.unit }));
  const within = ` in ${pair.volume.written}`;
  return { said: `${ion.name} ${figure.written}${within}`, ordered: `${shownAll(inAll)}${within}`, whole };
}

/** `154 mmol in 1 L` on a bag of 100 mL: what is in a litre. */
function concentrationOf(
  figure: TextFigure,
  count: (typeof ionCounts)[number],
  sentence: string,
  recipe: Recipe,
  runs: readonly Run[],
) {
  const pair = amountsInVolumes(sentence).find(({ amount }) => amount === figure);
  const perLitre = ionCounts.find((each) => each.figure === `${count.figure}PerLitre`);
  if (!pair || !perLitre || isInAllOfIt(figure, recipe, runs)) return undefined;
  const litres = inBase(pair.volume.quantity).over(Exact.of(1000));
  const quantity = { value: figure.quantity.value.over(litres), unit: perLitre.unit };
  return { quantity, litres, volume: pair.volume, count: perLitre };
}

/** Volumes that tell the concentration of an ion, and nothing of the container. */
export function ionVolumes(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): ReadonlySet<TextFigure> {
  const found = new Set<TextFigure>();
  for (const { amount, volume } of assertions(text).flatMap(amountsInVolumes)) {
    const count = ionCounts.find((each) => each.unit.dimension === amount.quantity.unit.dimension);
    if (count && !isInAllOfIt(amount, recipe, runs) && ionOf(amount, recipe, runs, lookup)) found.add(volume);
  }
  return found;
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
