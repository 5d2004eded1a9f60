import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

const title = `  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"`;

export const titleMissing = recipeCheck({
  name: "title-missing",
  family: "record",
  severity: "error",
  title: "A recipe without a title",
  why: "Sheet and record bear the title; without one nobody knows what was made.",
  source: "Record elements for sterile preparations: master record",
  rows: ["record-elements mfr-name-strength-form"],
  bad: example([title, `  title  ""`]),
  good: example(),
  // A recipe without the line at all lacks a required fact, which is told where facts are read.
  *find({ recipe }) {
    const stated = recipe.facts.one("title");
    if (stated && stated.slots.text.text.trim() === "") yield { at: stated };
  },
  say: () => ({ text: "The title is empty. Write what the preparation is called, with its dose and volume." }),
});
