/** Whether a finding stands as an error, so that what only repeats it may be left out. */
import type { Recipe } from "./declaration.ts";
import type { Policy } from "./policy.ts";

/** Of a check that is an error unless the site grades it otherwise: wherever it finds something in this recipe, and its reader sees it. */
export function isShownAsError(name: string, recipe: Recipe, policy: Policy): boolean {
  const graded = policy.severities.get(name);
  if (graded !== undefined && graded !== "error") return false;
  if (policy.known.get(recipe.name.name)?.has(name)) return false;
  return !recipe.deviations.some((deviation) => deviation.check.name === name);
}
