import { orderedDrugs, orderedIons, strayDrugs } from "../../bench/stray-drugs.ts";
import { nearNames } from "../../model/near.ts";
import { isShownAsError } from "../../model/shown-as-error.ts";
import { recipeCheck } from "../check.ts";
import { standardLibrary } from "../example.ts";
import { oneOf } from "../showing.ts";
import { straysNamed } from "../written/strays-named.ts";
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
  *find({ recipe, lookup, policy }) {
    // A line that cannot be read may order it; that it is left aside by the bench makes the run unknown.
    if (["drug", "additive"].some((word) => recipe.order?.isUnread(word))) return;
    const drugs = orderedDrugs(recipe);
    const title = recipe.facts.one("title")?.slots.text.text ?? "";
    const named = straysNamed(title, recipe, lookup, policy);
    // A name that no drug bears, and that is near to this one's, is told in the order.
    const misspelt = isShownAsError("unknown-name", recipe, policy) ? drugs.filter((d) => !lookup.find("drug", d)) : [];
    for (const { at, stock, drug } of strayDrugs(recipe, lookup)) {
      if (misspelt.some((name) => nearNames(name, [drug]).length > 0)) continue;
      const ordered = drugs.length > 0 ? drugs : orderedIons(recipe);
      yield { at, stock: stock.name.name, drug, ordered, isInTitle: named.has(drug) };
    }
  },
  say: ({ stock, drug, ordered, isInTitle }) => ({
    text: `${stock} holds ${drug}${isInTitle ? ", which the title names" : ""}; the order names ${oneOf(ordered).replace(" or ", " and ")}. ${isInTitle ? `Order ${drug} with its dose, or take it off the materials and out of the title` : `Take it off the materials, or order ${drug} with its dose`}.`,
  }),
});
