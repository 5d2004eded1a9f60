import { orderedDrugs } from "../../bench/stray-drugs.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { TextSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isOfPreparation } from "../written/bare-figures.ts";
import { inFigures } from "../written/figures-spelt.ts";
import { formulationsOf, formulationsUnsaid, substanceWords } from "../written/formulations.ts";
import { namedAmounts } from "../written/named-amounts.ts";
import { isSaltWord } from "../written/salt-words.ts";
import { assertions, wordsOf } from "../written/words-against-order.ts";

const pegylated = (line: string) =>
  example(
    ['  name           "magnesium sulfate heptahydrate"\n', '  name           "pegylated magnesium sulfate"\n'],
    ['"Magnesium sulfate 4 g in', '"Pegylated magnesium sulfate 4 g in'],
    ["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`],
  );

interface NotSaid {
  at: TextSlot;
  drug: string;
  say: string;
}

export const formulationNotOnLabel = recipeCheck<NotSaid>({
  name: "formulation-not-on-label",
  family: "record",
  severity: "warning",
  title: "A line of the label names the drug without its formulation",
  why: "A liposomal drug is dosed otherwise than the conventional one; at the bedside the label is all that is read.",
  source: "common practice",
  bad: pegylated("Magnesium sulfate 4 g"),
  good: pegylated("Pegylated magnesium sulfate 4 g"),
  *find({ recipe, lookup }) {
    const lines = recipe.labelText?.all("line") ?? [];
    const [first] = lines;
    if (!first) return;
    for (const drug of orderedDrugs(recipe)) {
      const own = formulationsOf(drug, lookup);
      // The lines are read together.
      const lacking = own.filter(({ words }) => !lines.some(({ slots }) => words.test(slots.text.text)));
      if (lacking.length === 0) continue;
      const line = lines.find(({ slots }) => namesDrug(inFigures(slots.text.text), drug, lookup));
      if (line) yield { at: line.slots.text, drug, say: lacking.map(({ called }) => called).join(" ") };
    }
  },
  say: ({ drug, say }) => ({
    text: `The order is for ${drug}, and this line of the label names the drug without ${say}, so that it reads as another medicine, which is dosed otherwise. Write ${say} in it.`,
  }),
});

/** Beside an amount, or with nothing else than words of the preparation. */
function namesDrug(line: string, drug: string, lookup: Lookup): boolean {
  const substance = substanceWords(drug, lookup);
  const isNamed = (text: string) =>
    wordsOf(text).some((word) => substance.has(word)) && formulationsUnsaid(text, drug, lookup).length > 0;
  return assertions(line).some((sentence) => {
    if (!isNamed(sentence)) return false;
    if (/\d/.test(sentence))
      return namedAmounts(sentence).some((each) => isNamed(each.portion) || isNamed(each.behind));
    return wordsOf(sentence).every((word) => substance.has(word) || isSaltWord(word) || isOfPreparation(word));
  });
}
