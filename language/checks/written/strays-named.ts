/**
 * A drug that title and materials name and the order does not: the order lacks it. That is told at the material, so that the title, which
 * says the same, is not told as well.
 */
import { strayDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { Policy } from "../../model/policy.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";

/** The names of the drug as a text may write them. */
function namesOf(drug: string, lookup: Lookup): RegExp[] {
  const printed = lookup.find("drug", drug)?.facts.one("name")?.slots.text.text;
  return [drug, printed ?? drug].map((name) => {
    const words = name.split(/[\s-]+/).map(escaped);
    return new RegExp(`\\b${words.join("[\\s-]+")}\\b`, "i");
  });
}

function escaped(word: string): string {
  return word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}

/** Drugs on the tray that the order does not name and this text does, each with its names; none unless they are told at the material. */
export function straysNamed(text: string, recipe: Recipe, lookup: Lookup, policy: Policy): Map<string, RegExp[]> {
  const found = new Map<string, RegExp[]>();
  const strays = strayDrugs(recipe, lookup);
  if (strays.length === 0 || !isShownAsError("stock-not-the-drug-ordered", recipe, policy)) return found;
  for (const { drug } of strays) {
    const names = namesOf(drug, lookup);
    if (names.some((name) => name.test(text))) found.set(drug, names);
  }
  return found;
}

/** Whether what stands before a figure ends with one of the names: `calcium gluconate 2 g`. */
export function isOfStray(before: string, strays: ReadonlyMap<string, readonly RegExp[]>): boolean {
  return [...strays.values()].some((names) =>
    names.some((name) => new RegExp(`${name.source}\\W*$`, "i").test(before)),
  );
}
