import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { namesInFull } from "../written/short-names.ts";
import { substanceContradicted } from "../written/substances-named.ts";
import { tailContradicted } from "../written/tail-names.ts";
import { namesItsDrug } from "../written/words-against-order.ts";

export const titleWithoutDrug = recipeCheck({
  name: "title-without-drug",
  family: "record",
  severity: "warning",
  title: "A title that does not name the drug of the order",
  why: "Whoever picks a recipe by its title reads there what it makes; a title left from another recipe names another drug.",
  source: "common practice",
  bad: example(["Magnesium sulfate 4 g in", "Heparin 4 g in"]),
  good: example(),
  *find({ recipe, lookup }) {
    const title = recipe.facts.one("title")?.slots.text;
    if (!title?.text.trim() || namesItsDrug(title.text, recipe, lookup) !== false) return;
    if (namesItsDrug(namesInFull(title.text, recipe, lookup, true), recipe, lookup) !== false) return;
    // Told as a contradiction.
    const text = namesInFull(title.text, recipe, lookup);
    if (substanceContradicted(text, recipe, lookup) ?? tailContradicted(text, recipe, lookup)) return;
    yield { at: title, drug: recipe.order!.one("drug")!.slots.drug.name };
  },
  say: ({ at, drug }) => ({
    text: `The title "${at.text}" does not name ${drug}, which the order is for. Name the drug in the title, or correct the order.`,
  }),
});
