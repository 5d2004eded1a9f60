/** The declarations from which a recipe takes its figures, each with the name in the recipe that leads to it. The site is none of them. */
import type { Declaration, Recipe } from "../model/declaration.ts";
import type { DeclarationOf, Lookup } from "../model/lookup.ts";
import type { NameSlot } from "../model/slots.ts";

export interface Behind {
  at: NameSlot;
  of: Exclude<Declaration, { kind: "recipe" | "lots" }>;
  /** Another declaration that might be meant as well. */
  other: Declaration | undefined;
}

export function declarationsBehind(recipe: Recipe, lookup: Lookup): readonly Behind[] {
  const found: Behind[] = [];
  const add = (kind: Exclude<keyof DeclarationOf, "site">, name: string, at: NameSlot) => {
    const of = lookup.find(kind, name);
    if (of) found.push({ at, of, other: lookup.second(name, kind) });
    return of;
  };
  const { order } = recipe;
  for (const { slots } of order?.all("drug") ?? []) add("drug", slots.drug.name, slots.drug);
  for (const { slots } of order?.all("additive") ?? []) add("drug", slots.drug.name, slots.drug);
  for (const { slots } of order?.all("diluent") ?? []) add("fluid", slots.fluid.name, slots.fluid);
  for (const { slots } of order?.all("dose") ?? []) {
    const bands = (slots as { bands?: NameSlot }).bands;
    if (bands) add("bands", bands.name, bands);
  }
  for (const { item } of recipe.materials) {
    const stock = lookup.find("stock", item.name);
    if (!stock) {
      add("device", item.name, item);
      continue;
    }
    const other = lookup.second(item.name, "stock") ?? lookup.find("device", item.name);
    found.push({ at: item, of: stock, other });
    const fluid = stock.facts.one("fluid")?.slots.fluid;
    if (fluid) add("fluid", fluid.name, item);
    const solvent = stock.reconstitute?.one("with")?.slots.fluid;
    if (solvent) add("fluid", solvent.name, item);
    const drug = stock.facts.one("drug")?.slots.drug;
    if (drug) add("drug", drug.name, item);
  }
  return found;
}
