import { orderedDrugs, orderedIons, strayDrugs } from "../../bench/stray-drugs.ts";
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
    // A line that cannot be read may order it; that it is left aside by the bench makes the run unknown.
    if (["drug", "additive"].some((word) => recipe.order?.isUnread(word))) return;
    const drugs = orderedDrugs(recipe);
    for (const { at, stock, drug } of strayDrugs(recipe, lookup)) {
      yield { at, stock: stock.name.name, drug, ordered: drugs.length > 0 ? drugs : orderedIons(recipe) };
    }
  },
  say: ({ stock, drug, ordered }) => ({
    text: `${stock} holds ${drug}; the order names ${oneOf(ordered).replace(" or ", " and ")}. Take it off the materials, or order ${drug} with its dose.`,
  }),
});
