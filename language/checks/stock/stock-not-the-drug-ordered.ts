import type { Recipe } from "../../model/declaration.ts";
import { recipeCheck } from "../check.ts";
import { standardLibrary } from "../example.ts";
import { oneOf } from "../showing.ts";
import { withThirdMaterial } from "./third-material.ts";

export const stockNotTheDrugOrdered = recipeCheck({
  name: "stock-not-the-drug-ordered",
  family: "stock",
  severity: "error",
  title: "A material holds a drug that the order does not name",
  why: "A wrong product on the tray ends up in the bag.",
  source: "common practice",
  bad: withThirdMaterial("glycopyrronium-ampoule"),
  good: standardLibrary,
  *find({ recipe, lookup }) {
    const ordered = orderedDrugs(recipe);
    const targets = (recipe.order?.all("target") ?? []).map((f) => f.slots.ion.name);
    if (ordered.length === 0 && targets.length === 0) return;
    const seen = new Set<string>();
    for (const material of recipe.materials) {
      const stock = lookup.find("stock", material.item.name);
      const drug = stock?.facts.one("drug")?.slots.drug.name;
      if (!stock || drug === undefined || ordered.includes(drug) || seen.has(drug)) continue;
      // An ordered amount of an ion is made up from whatever holds that ion.
      const ions = [
        ...(lookup.find("drug", drug)?.substance.ions ?? []),
        ...stock.facts.all("contains").map((f) => ({ name: f.slots.what.name })),
      ];
      if (ions.some((ion) => targets.includes(ion.name))) continue;
      seen.add(drug);
      yield { at: material.item, stock: stock.name.name, drug, ordered: ordered.length > 0 ? ordered : targets };
    }
  },
  say: ({ stock, drug, ordered }) => ({
    text: `${stock} holds ${drug}; the order names ${oneOf(ordered).replace(" or ", " and ")}. Take it off the materials, or order ${drug} with its dose.`,
  }),
});

function orderedDrugs(recipe: Recipe): string[] {
  const { order } = recipe;
  return [...(order?.all("drug") ?? []), ...(order?.all("additive") ?? [])].map((f) => f.slots.drug.name);
}
