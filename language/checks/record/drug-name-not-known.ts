import type { Run } from "../../bench/run.ts";
import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { TextSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { figuresIn } from "../written/figures-in-text.ts";
import { inFigures } from "../written/figures-spelt.ts";
import { knownAmounts } from "../written/known-amounts.ts";
import { saltContradicted } from "../written/label-salts.ts";
import { labelSubstanceContradicted } from "../written/label-substances.ts";
import { namesInFull } from "../written/short-names.ts";
import { type StrangeName, strangeName } from "../written/strange-names.ts";
import { substanceContradicted } from "../written/substances-named.ts";
import { tailContradicted } from "../written/tail-names.ts";
import { isMoietyOf, undeclaredForm } from "../written/undeclared-forms.ts";
import { namesItsDrug } from "../written/words-against-order.ts";
import { labelTextContradictsOrder } from "./label-text-contradicts-order.ts";
import { titleContradictsOrder } from "./title-contradicts-order.ts";

const label = (line: string) =>
  example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]);

export const drugNameNotKnown = recipeCheck({
  name: "drug-name-not-known",
  family: "record",
  severity: "warning",
  title: "An amount on the label or in the title stands beside the name of a drug that is not the ordered one's",
  why: "A line left from another recipe names another drug; where it is a second name of the same, the library should know it.",
  source:
    "The use of stems in the selection of International Nonproprietary Names (INN) for pharmaceutical substances (World Health Organization, 2018): endings by which a name is known as a drug's; common practice",
  bad: label("Furosemide 4 g in 100 mL"),
  good: label("Magnesium sulfate 4 g in 100 mL"),
  *find(context) {
    const { recipe, runs, lookup } = context;
    const title = recipe.facts.one("title")?.slots.text;
    // A title without the drug's name is told as that.
    if (title && namesItsDrug(namesInFull(title.text, recipe, lookup), recipe, lookup) !== false) {
      const found = named(title, "title", recipe, runs, lookup);
      if (
        found &&
        !isOtherwiseNamed(namesInFull(title.text, recipe, lookup), substanceContradicted, recipe, lookup) &&
        !isFigureTold(found, context)
      )
        yield found;
    }
    for (const { slots } of recipe.labelText?.all("line") ?? []) {
      const found = named(slots.text, "line of the label", recipe, runs, lookup);
      const text = namesInFull(inFigures(slots.text.text), recipe, lookup);
      if (found && !isOtherwiseNamed(text, labelSubstanceContradicted, recipe, lookup) && !isFigureTold(found, context))
        yield found;
    }
  },
  say: ({ line, name, written, ordered }) => ({
    text: `This ${line} says ${written} beside ${name}; the order is for ${ordered.join(" and ")}, and the library has no such name for that. If it is the same drug, add ${name} to the name in its declaration; if it is not, correct the ${line}.`,
  }),
});

/** Another figure than the recipe's is told with the name beside it. */
function isFigureTold({ at, name, written }: { at: TextSlot; name: string; written: string }, context: RecipeContext) {
  const said = `${written} of ${name}`;
  return (
    (isTold("title-contradicts-order", context) &&
      [...titleContradictsOrder.find(context)].some((told) => told.at === at && told.written === said)) ||
    (isTold("label-text-contradicts-order", context) &&
      [...labelTextContradictsOrder.find(context)].some((told) => told.at === at && told.said === said))
  );
}

/** A name that the library knows, or another salt, is told as a contradiction. */
function isOtherwiseNamed(text: string, substance: typeof substanceContradicted, recipe: Recipe, lookup: Lookup) {
  return (
    (substance(text, recipe, lookup) ??
      tailContradicted(text, recipe, lookup) ??
      saltContradicted(text, recipe, lookup)) !== undefined
  );
}

function named(at: TextSlot, line: string, recipe: Recipe, runs: readonly Run[], lookup: Lookup) {
  const text = namesInFull(inFigures(at.text), recipe, lookup);
  // `Theophylline 197 mg` of aminophylline is no other drug, and is told as not compared.
  const isMoiety = ({ name, written }: StrangeName) =>
    isMoietyOf(name, text, recipe, lookup) &&
    figuresIn(text).some(
      (figure) =>
        figure.written === written &&
        undeclaredForm(figure, text, knownAmounts(figure, recipe, runs, lookup), recipe, lookup),
    );
  const strange = /\d/.test(text) ? strangeName(text, recipe, lookup, isMoiety) : undefined;
  return strange && { at, line, ...strange, ordered: orderedDrugs(recipe) };
}
