/** In which forms of a drug a figure of a printed text may be counted: `20 mg/mL` of caffeine citrate or of caffeine. */
import type { Drug, Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import { tellingWords } from "./named-forms.ts";
import { wordsOf } from "./words-against-order.ts";

/** As the drug is counted (undefined), as its products are labelled or the order counts it, and as the words say. */
export function countedForms(drug: Drug, sentence: string, recipe: Recipe, lookup: Lookup): (string | undefined)[] {
  const said = new Set(wordsOf(sentence));
  const labelled = recipe.materials.flatMap(({ item }) => {
    const facts = lookup.find("stock", item.name)?.facts;
    return [facts?.one("strength")?.slots.salt?.name, facts?.one("drug")?.slots.salt?.name];
  });
  const ordered = (recipe.order?.all("dose") ?? []).map(({ slots }) => slots.salt?.name);
  const forms = drug.substance.salts
    .map(({ name }) => name)
    .filter(
      (name) =>
        labelled.includes(name) ||
        ordered.includes(name) ||
        tellingWords(name, drug, lookup).some((word) => said.has(word)),
    );
  return [undefined, ...forms];
}
