/** Figures worked out for the place being written, in the words in which the author would state them. */
import type { Run } from "../bench/run.ts";
import { vesselsOf } from "../bench/setup.ts";
import type { Vessel } from "../bench/things.ts";
import { ml, strength } from "../checks/showing.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { movedText, runsAcross, runsOf } from "./figures.ts";

/** Facts of a preparation whose figures come out of its own steps; another recipe's figure there is another preparation's. */
export const ownFigures: ReadonlySet<string> = new Set([
  "concentration",
  "nominal-concentration",
  "volume",
  "filled-weight",
]);

/** Those of them that the steps alone come to. */
const ofSteps = ["volume", "concentration"] as const;

/**
 * What facts of a preparation come to, by their words, as far as the steps make one. One run only: a range has no single figure. The steps
 * are followed when the first fact is asked for, and once.
 */
export function derivedFigures(
  library: Library,
  recipe: Recipe | undefined,
  name: string | undefined,
): (fact: string) => readonly string[] {
  let known: Readonly<Record<(typeof ofSteps)[number], readonly string[]>> | undefined;
  return (fact) => {
    const word = ofSteps.find((each) => each === fact);
    if (!recipe || name === undefined || !word) return [];
    known ??= finishedFigures(library, recipe, name);
    return known[word];
  };
}

function finishedFigures(library: Library, recipe: Recipe, name: string) {
  const runs = runsOf(library, recipe);
  const run = runs[0]!;
  const vessel = runs.length > 1 || run.unknown ? undefined : vesselsOf(run.groups.get(name))[0];
  if (!vessel?.liquid.volume.isPositive()) return { volume: [], concentration: [] };
  return { volume: [ml(vessel.liquid.volume)], concentration: concentrationsIn(vessel, run) };
}

function concentrationsIn({ liquid }: Vessel, run: Run): string[] {
  return liquid.drugs.flatMap((drug) => {
    const amount = liquid.amounts.get(drug);
    if (!amount?.isPositive()) return [];
    const text = strength(amount, liquid.volume, run.setup.kinds.get(drug) ?? "mass");
    return [liquid.drugs.length > 1 ? `${drug} ${text}` : text];
  });
}

/** What the step at an offset of the chunk moves, `8 mL`; nothing where it moves nothing or the figure is not known. */
export function derivedMoves(library: Library, recipe: Recipe | undefined, at: number): string[] {
  const step =
    recipe?.steps.find((s) => s.start <= at && at <= s.end + 2) ?? recipe?.steps.findLast((s) => s.end <= at);
  if (!recipe || !step) return [];
  // Only the steps up to this one: what follows is not written yet, or stands for the text before the edit.
  const upTo: Recipe = { ...recipe, steps: recipe.steps.slice(0, recipe.steps.indexOf(step) + 1) };
  const open = { ...step, tokens: withoutOpenClaim(step.tokens) };
  upTo.steps[upTo.steps.length - 1] = open;
  const runs = runsAcross(library, upTo);
  if (runs.length === 0 || runs.some((r) => r.unknown)) return [];
  const index = runs[0]!.steps.findIndex((s) => s.step === open);
  const text = index < 0 ? undefined : movedText(runs, index);
  return text === undefined ? [] : [text];
}

/** A step whose `=` has no figure behind it yet. */
function withoutOpenClaim(tokens: Recipe["steps"][number]["tokens"]): Recipe["steps"][number]["tokens"] {
  const cut = tokens.findIndex((t) => t.kind === "equals");
  return cut < 0 ? tokens : tokens.slice(0, cut);
}
