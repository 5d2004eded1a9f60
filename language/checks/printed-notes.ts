/** Notes of a recipe, and those among its steps; both are printed. */
import { planOf } from "../bench/plan.ts";
import { note } from "../bench/verbs/note.ts";
import type { Recipe } from "../model/declaration.ts";
import type { TextSlot } from "../model/slots.ts";

export function printedNotes(recipe: Recipe): TextSlot[] {
  const printed = recipe.facts.all("note").map(({ slots }) => slots.text);
  for (const { verb, slots } of planOf(recipe).steps)
    if (verb === note) printed.push((slots as { text: TextSlot }).text);
  return printed;
}
