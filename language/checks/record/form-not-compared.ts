import type { Run } from "../../bench/run.ts";
import type { Recipe } from "../../model/declaration.ts";
import type { Lookup } from "../../model/lookup.ts";
import type { TextSlot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { figuresIn } from "../written/figures-in-text.ts";
import { asPrinted, inFigures } from "../written/figures-spelt.ts";
import { knownAmounts } from "../written/known-amounts.ts";
import { matchesDose } from "../written/title-amounts.ts";
import { namesUndeclaredForm, type UndeclaredForm, undeclaredForm } from "../written/undeclared-forms.ts";
import { assertions } from "../written/words-against-order.ts";

interface NotCompared extends UndeclaredForm {
  at: TextSlot;
  line: string;
  written: string;
}

const label = (line: string) =>
  example(
    ["  ion            magnesium charge 2\n", ""],
    ["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`],
  );

export const formNotCompared = recipeCheck<NotCompared>({
  name: "form-not-compared",
  family: "record",
  severity: "note",
  title:
    "An amount in the title or on the label counts a form of the drug of which the library does not say how much is in it",
  why: "A figure that was laid against nothing must not look as if it had been.",
  source: "common practice",
  bad: label("Magnesium sulfate 4 g (magnesium 394 mg)"),
  good: label("Magnesium sulfate 4 g"),
  *find({ recipe, runs, lookup }) {
    const title = recipe.facts.one("title")?.slots.text;
    if (title) yield* notCompared(title, "title", recipe, runs, lookup);
    for (const { slots } of recipe.labelText?.all("line") ?? [])
      yield* notCompared(slots.text, "line of the label", recipe, runs, lookup);
  },
  say: ({ at, line, written, drug, form }) => ({
    text: `This ${line} says ${asPrinted(at.text, written)} beside ${form}, and the library does not say how much of that is in ${drug}: the figure was laid against nothing. Declare the form in drug ${drug} with its source (\`counted-as\` and \`salt\`, or \`ion\`), or check the figure by hand.`,
  }),
});

function* notCompared(at: TextSlot, line: string, recipe: Recipe, runs: readonly Run[], lookup: Lookup) {
  if (!/\d/.test(at.text)) return;
  for (const sentence of assertions(inFigures(at.text))) {
    for (const figure of figuresIn(sentence)) {
      if (!namesUndeclaredForm(figure, sentence, recipe, lookup)) continue;
      const found = undeclaredForm(figure, sentence, knownAmounts(figure, recipe, runs, lookup), recipe, lookup);
      if (!found || matchesDose(figure, sentence, recipe, runs, lookup)?.fits) continue;
      yield { at, line, written: figure.written, ...found };
      return;
    }
  }
}
