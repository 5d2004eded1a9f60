import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { patientContradicted, routeContradicted, timeContradicted } from "./words-against-order.ts";

const label = (line: string) =>
  example(["  preparation bag {", `  label-text {\n    line "${line}"\n  }\n\n  preparation bag {`]);

export const labelTextContradictsOrder = recipeCheck({
  name: "label-text-contradicts-order",
  family: "record",
  severity: "error",
  title: "A line of the label says another route, patient or time than the order",
  why: "At the bedside the label is all that is read; a line copied from another recipe sends the dose the wrong way.",
  source: "common practice",
  bad: label("For epidural use only."),
  good: label("For intravenous use only. Never give it by the epidural route."),
  *find({ recipe }) {
    for (const { slots } of recipe.labelText?.all("line") ?? []) {
      for (const contradicted of [
        routeContradicted(slots.text.text, recipe),
        patientContradicted(slots.text.text, recipe),
        timeContradicted(slots.text.text, recipe),
      ]) {
        if (contradicted) yield { at: slots.text, ...contradicted };
      }
    }
  },
  say: ({ said, ordered }) => ({
    text: `This line of the label says ${said}; the order says ${ordered}. Correct whichever is wrong.`,
  }),
});
