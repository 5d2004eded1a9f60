import type { Recipe } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { doseContradicted } from "./label-doses.ts";
import { keepingContradicted, strengthContradicted } from "./label-figures.ts";
import { assertions, patientContradicted, routeContradicted, timeContradicted } from "./words-against-order.ts";

const label = (line: string) =>
  example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]);

export const labelTextContradictsOrder = recipeCheck({
  name: "label-text-contradicts-order",
  family: "record",
  severity: "error",
  title: "A line of the label or a note says another route, patient, time, dose, strength or storage than the recipe",
  why: "At the bedside the label is all that is read; a line copied from another recipe sends the dose the wrong way.",
  source: "common practice",
  bad: label("For epidural use only."),
  good: label("For intravenous use only. Never give it by the epidural route."),
  *find({ recipe, runs, lookup }) {
    for (const { slots } of recipe.labelText?.all("line") ?? []) {
      for (const contradicted of [
        routeContradicted(slots.text.text, recipe),
        patientContradicted(slots.text.text, recipe),
        timeContradicted(slots.text.text, recipe),
        strengthContradicted(slots.text.text, recipe, runs, lookup),
        doseContradicted(slots.text.text, recipe, runs, lookup),
        keepingContradicted(slots.text.text, recipe),
      ]) {
        if (contradicted) yield { at: slots.text, line: "line of the label", ...contradicted };
      }
    }
    for (const note of notesOf(recipe)) {
      // A note speaks of much beside the giving.
      const given = assertions(note.text).filter((sentence) => speaksOfGiving.test(sentence));
      for (const contradicted of [
        routeContradicted(given.join(". "), recipe),
        timeContradicted(given.join(". "), recipe),
      ]) {
        if (contradicted) yield { at: note, line: "note", ...contradicted };
      }
    }
  },
  say: ({ said, ordered, whole, line }) => ({
    text: `This ${line} says ${said}; the ${whole ?? "order"} says ${ordered}. Correct whichever is wrong.`,
  }),
});

const speaksOfGiving =
  /\b(?:give|given|infuse|infused|administer|inject|for (?:[a-z]+ )?[a-z]+ (?:use|injection|infusion))\b/i;

/** Of the recipe and among its steps; both are printed. */
function notesOf(recipe: Recipe): (Spot & { text: string })[] {
  const own = recipe.facts.all("note").map(({ slots }) => slots.text);
  const amongSteps = recipe.steps.flatMap(({ tokens: [verb, text] }) =>
    verb?.text === "note" && text?.text.startsWith('"')
      ? [{ start: text.start, end: text.end, text: text.text.slice(1, -1) }]
      : [],
  );
  return [...own, ...amongSteps];
}
