/** Figures worked out for the place being written, in the words in which the author would state them. */
import { vesselsOf } from "../bench/setup.ts";
import { strength } from "../checks/showing.ts";
import type { Library } from "../library.ts";
import type { Recipe } from "../model/declaration.ts";
import { movedText, runsAcross, runsOf } from "./figures.ts";

/** The final concentration of a preparation, as far as the steps make one. One run only: a range has no single figure. */
export function derivedConcentration(library: Library, recipe: Recipe | undefined, name: string | undefined): string[] {
  if (!recipe || name === undefined) return [];
  const runs = runsOf(library, recipe);
  const run = runs[0]!;
  if (runs.length > 1 || run.unknown) return [];
  const vessel = vesselsOf(run.groups.get(name))[0];
  if (!vessel?.liquid.volume.isPositive()) return [];
  const several = vessel.liquid.drugs.length > 1;
  return vessel.liquid.drugs.flatMap((drug) => {
    const amount = vessel.liquid.amounts.get(drug);
    if (!amount?.isPositive()) return [];
    const text = strength(amount, vessel.liquid.volume, run.setup.kinds.get(drug) ?? "mass");
    return [several ? `${drug} ${text}` : text];
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
