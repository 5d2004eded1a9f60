import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { TextSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { saltContradicted } from "./label-salts.ts";
import { labelSubstanceContradicted } from "./label-substances.ts";
import { strangeName } from "./strange-names.ts";
import { substanceContradicted } from "./substances-named.ts";
import { tailContradicted } from "./tail-names.ts";
import { namesItsDrug } from "./words-against-order.ts";

const label = (line: string) =>
  example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]);

export const drugNameNotKnown = recipeCheck({
  name: "drug-name-not-known",
  family: "record",
  severity: "warning",
  title: "An amount on the label or in the title stands beside the name of a drug that is not the ordered one's",
  why: "A line left from another recipe names another drug; where it is a second name of the same, the library should know it.",
  source:
    "The use of stems in the selection of International Nonproprietary Names (INN) for pharmaceutical substances (World Health Organization, 2024): endings by which a name is known as a drug's; common practice",
  bad: label("Furosemide 4 g in 100 mL"),
  good: label("Magnesium sulfate 4 g in 100 mL"),
  *find({ recipe, lookup }) {
    const title = recipe.facts.one("title")?.slots.text;
    // A title without the drug's name is told as that.
    if (title && namesItsDrug(title.text, recipe, lookup) !== false) {
      const isTold =
        substanceContradicted(title.text, recipe, lookup) ??
        tailContradicted(title.text, recipe, lookup) ??
        saltContradicted(title.text, recipe, lookup);
      if (!isTold) yield* named(title, "title", recipe, lookup);
    }
    for (const { slots } of recipe.labelText?.all("line") ?? []) {
      const { text } = slots.text;
      if (!/\d/.test(text)) continue;
      const isTold =
        labelSubstanceContradicted(text, recipe, lookup) ??
        tailContradicted(text, recipe, lookup) ??
        saltContradicted(text, recipe, lookup);
      if (!isTold) yield* named(slots.text, "line of the label", recipe, lookup);
    }
  },
  say: ({ line, name, written, ordered }) => ({
    text: `This ${line} says ${written} beside ${name}; the order is for ${ordered.join(" and ")}, which this library does not call so. If ${name} is the same drug, add it to the name in the drug's declaration; if it is not, correct the line.`,
  }),
});

function* named(at: TextSlot, line: string, recipe: Recipe, lookup: Lookup) {
  const strange = strangeName(at.text, recipe, lookup);
  if (strange) yield { at, line, ...strange, ordered: orderedDrugs(recipe) };
}
