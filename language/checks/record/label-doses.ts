/** Amounts of an ordered drug that a line of the label repeats, laid against the ordered dose. */
import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { figuresIn } from "./figures-in-text.ts";
import { matchesDose } from "./title-amounts.ts";
import { assertions, type Contradiction, isNamedLast } from "./words-against-order.ts";

/** An upper end, a part of it, or what is given in a time is another amount than the container's. */
const otherAmount = /\b(?:exceed\w*|up to|maxim\w*|limit|dilut\w*|reconstitut\w*|bolus|loading|vials?|ampoules?)\b/i;
const isPer = /^\s*(?:\/|per\b|every\b|an?\b|each\b|daily\b|hourly\b)/i;

/** `contains magnesium sulfate 40 g` on a bag for 4 g: the drug is named in the same breath. */
export function doseContradicted(
  text: string,
  recipe: Recipe,
  runs: readonly Run[],
  lookup: Lookup,
): Contradiction | undefined {
  const use = recipe.order?.one("use")?.slots.use.choice;
  // Of a part of the container, or of what is given in a time, no one amount is the label's.
  if (use === "part-of-container" || use === "titrated" || runs.some((run) => run.doses.some(isPerTime)))
    return undefined;
  const drugs = orderedDrugs(recipe);
  for (const sentence of assertions(text)) {
    if (otherAmount.test(sentence)) continue;
    for (const figure of figuresIn(sentence)) {
      const isNamed = drugs.some((drug) => isNamedLast(figure.before, drug, lookup));
      if (!isNamed || isPer.test(figure.after)) continue;
      const judged = matchesDose(figure, sentence, recipe, runs, lookup);
      if (judged && !judged.fits && !judged.form) return { said: figure.written, ordered: judged.known.join(" and ") };
    }
  }
  return undefined;
}

function isPerTime({ per }: Run["doses"][number]): boolean {
  return "time" in per;
}
