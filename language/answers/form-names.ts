/** The forms of a drug that may stand behind `as`, and its ions behind `of`: those of the drugs that the place speaks of. */
import { orderedDrugs } from "../bench/stray-drugs.ts";
import { formsOf } from "../checks/units/salt-forms.ts";
import type { Library } from "../library.ts";
import type { Declaration, Recipe } from "../model/declaration.ts";

/** @returns undefined where the slot is for another kind of name */
export function formNames(
  library: Library,
  recipe: Recipe | undefined,
  own: Declaration | undefined,
  { slot, named }: { slot: string; named: string | undefined },
): string[] | undefined {
  if (slot !== "salt" && slot !== "as" && slot !== "ion") return undefined;
  const stocked = own?.kind === "stock" ? own.facts.one("drug")?.slots.drug.name : undefined;
  const drugs = named !== undefined ? [named] : stocked !== undefined ? [stocked] : recipe ? orderedDrugs(recipe) : [];
  const { lookup } = library.surroundings();
  const spoken = own?.kind === "drug" ? [own] : drugs.flatMap((name) => lookup.find("drug", name) ?? []);
  const names = spoken.flatMap((drug) =>
    slot === "ion" ? drug.substance.ions.map(({ name }) => name) : formsOf(drug),
  );
  return [...new Set(names)];
}
