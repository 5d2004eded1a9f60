/**
 * The figures that a recipe leaves open, read off the bench: at one point of the order, or at both ends of its range. A recipe
 * with a step that cannot be read, or a figure that cannot be known, gives none: better no figure than a wrong one.
 */
import { kindUnits } from "../bench/amounts.ts";
import type { Liquid } from "../bench/liquid.ts";
import { endsOf } from "../bench/order.ts";
import { type Run, runRecipe } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { Vessel } from "../bench/things.ts";
import { pointsAcross } from "../checks/over-range.ts";
import { handy, ml, strength } from "../checks/showing.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { Exact } from "../quantities/exact.ts";
import { showQuantity } from "../quantities/quantity.ts";

/** One run, or two where the order has a range: at its lower and its upper ends. */
export function runsOf(library: Library, recipe: Recipe): Run[] {
  const { lookup, policy } = library.surroundings();
  return endsOf(recipe).map((point) => runRecipe(recipe, lookup, policy, { point, overfill: "label" }));
}

/** `8 mL`, or `20 mL to 40 mL` where the two ends differ. */
export function spread(first: string, last: string): string {
  return first === last ? first : `${first} to ${last}`;
}

/**
 * A whole content at both ends of a range. The ends need not bound what lies between (a bigger bag from some weight on), so that each
 * is told with its order instead of as "from … to".
 */
export function atEnds(runs: readonly Run[], texts: readonly (string | undefined)[]): string | undefined {
  const [first] = texts;
  const last = texts.at(-1);
  if (first === undefined || last === undefined) return undefined;
  const [low, high] = [runs[0]!, runs.at(-1)!];
  if (low === high) return first;
  if (first !== last) return `${first} at ${pointWords(low)}; ${last} at ${pointWords(high)}`;
  return isConditional(low.recipe) ? `${first} at ${pointWords(low)} and at ${pointWords(high)}` : first;
}

function isConditional({ materials, steps, order }: Recipe): boolean {
  return (
    materials.some((m) => m.when) ||
    steps.some((s) => s.only.length > 0) ||
    (order?.every().some((f) => f.when) ?? false)
  );
}

/** `weight 40 kg, age 3 months`. */
export function pointWords({ point }: Run): string {
  return [...point].map(([input, value]) => `${input.replace("-", " ")} ${showQuantity(value)}`).join(", ");
}

/**
 * Runs over which the least and the most of a figure are met: of an order with a range those at the corners of its pieces, since neither
 * need stand at an end of it. None where they are not known.
 */
export function runsAcross(library: Library, recipe: Recipe): Run[] {
  if (endsOf(recipe).length === 1) return runsOf(library, recipe);
  const range = library.judgement(recipe);
  if (!range || range.undecided.length > 0) return [];
  const { lookup, policy } = library.surroundings();
  return pointsAcross(recipe, range).map((point) => runRecipe(recipe, lookup, policy, { point, overfill: "label" }));
}

/** Volume that a step moves, least and most over the runs; undefined where it moves none, or none for somebody. */
export function movedText(runs: readonly Run[], index: number): string | undefined {
  const [first, ...others] = runs
    .map((run) => run.steps[index])
    .map((step) => (step?.skipped ? undefined : step?.moved));
  if (!first || others.some((moved) => !moved)) return undefined;
  const rest = others as Exact[];
  return spread(ml(Exact.least(first, ...rest)), ml(Exact.greatest(first, ...rest)));
}

/** `108 mL, magnesium-sulfate 37.04 mg/mL`. */
export function contentsText(liquid: Liquid, run: Run): string {
  const drugs = liquid.drugs.flatMap((drug) => {
    const amount = liquid.amounts.get(drug);
    const kind = run.setup.kinds.get(drug) ?? "mass";
    return amount?.isPositive() ? [`${drug} ${strength(amount, liquid.volume, kind)}`] : [];
  });
  return [ml(liquid.volume), ...drugs].join(", ");
}

/** What a container holds when a step is done, over all runs. */
export function afterText(runs: readonly Run[], index: number, name: string): string | undefined {
  const texts = runs.map((run) => {
    const step = run.steps[index];
    const vessel = step && vesselAfter(step, name);
    const liquid = vessel && step.after.get(vessel);
    return liquid?.volume.isPositive() ? contentsText(liquid, run) : undefined;
  });
  return atEnds(runs, texts);
}

function vesselAfter(step: StepRun, name: string): Vessel | undefined {
  return [...step.after.keys()].find((vessel) => vessel.name === name);
}

/** How many of a material are needed, where the author leaves it open. */
export function countText(runs: readonly Run[], name: string): string | undefined {
  const counts = runs.map((run) => run.groups.get(name)).flatMap((group) => (group ? [group] : []));
  if (counts.length === 0 || counts.some((g) => g.stated !== undefined)) return undefined;
  const sizes = counts.map((g) => g.things.length);
  const least = Math.min(...sizes);
  const most = Math.max(...sizes);
  return most > 1 ? spread(String(least), String(most)) : undefined;
}

export function amountText(value: Exact, kind: keyof typeof kindUnits): string {
  return showQuantity(handy({ value, unit: kindUnits[kind] }));
}

export function finalText(runs: readonly Run[], name: string): string | undefined {
  const texts = runs.map((run) => {
    const vessel = run.finals.find((v) => v.name === name);
    return vessel?.liquid.volume.isPositive() ? contentsText(vessel.liquid, run) : undefined;
  });
  return atEnds(runs, texts);
}
