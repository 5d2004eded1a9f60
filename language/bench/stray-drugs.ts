/**
 * Materials with a drug that the order does not name. The wrong product on the tray is one slip: what is computed from it would only
 * repeat it, draw by draw, so the bench stops computing there and the check on the stock says why.
 */
import type { Recipe, Stock } from "../model/declaration.ts";
import type { Lookup } from "../model/lookup.ts";
import type { Policy } from "../model/policy.ts";
import { isShownAsError } from "../model/shown-as-error.ts";
import type { NameSlot } from "../model/slots.ts";

export interface StrayDrug {
  at: NameSlot;
  stock: Stock;
  drug: string;
}

/** Each drug once; none where the order names no drug at all. */
export function strayDrugs(recipe: Recipe, lookup: Lookup): StrayDrug[] {
  const ordered = orderedDrugs(recipe);
  const targets = orderedIons(recipe);
  if (ordered.length === 0 && targets.length === 0) return [];
  const found = new Map<string, StrayDrug>();
  for (const { item } of recipe.materials) {
    const stock = lookup.find("stock", item.name);
    const drug = stock?.facts.one("drug")?.slots.drug.name;
    if (!stock || drug === undefined || ordered.includes(drug) || found.has(drug)) continue;
    // An ordered amount of an ion is made up from whatever holds that ion.
    const ions = [
      ...(lookup.find("drug", drug)?.substance.ions ?? []),
      ...stock.facts.all("contains").map((f) => ({ name: f.slots.what.name })),
    ];
    if (!ions.some((ion) => targets.includes(ion.name))) found.set(drug, { at: item, stock, drug });
  }
  return [...found.values()];
}

/** Drugs that nothing is computed from, the finding that says so being shown as an error; otherwise the bench goes on computing. */
export function drugsLeftAside(recipe: Recipe, lookup: Lookup, policy: Policy): ReadonlySet<string> {
  const isShown = isShownAsError("stock-not-the-drug-ordered", recipe, policy);
  return new Set(isShown ? strayDrugs(recipe, lookup).map(({ drug }) => drug) : []);
}

export function orderedDrugs({ order }: Recipe): string[] {
  return [...(order?.all("drug") ?? []), ...(order?.all("additive") ?? [])].map((f) => f.slots.drug.name);
}

export function orderedIons({ order }: Recipe): string[] {
  return (order?.all("target") ?? []).map((f) => f.slots.ion.name);
}
