import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

const title = `  title  "Magnesium sulfate 4 g in sodium chloride 0.9 % 100 mL"`;

export const titleMissing = writtenCheck({
  name: "title-missing",
  family: "record",
  severity: "error",
  title: "A recipe without a title",
  why: "Sheet and record bear the title; without one nobody knows what was made.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): name, strength and form",
  rows: ["record-elements mfr-name-strength-form", "record-elements my-label-01"],
  bad: example([title, `  title  ""`]),
  good: example(),
  // A recipe without the line at all lacks a required fact, which is told where facts are read.
  *find({ recipe }) {
    const stated = recipe.facts.one("title");
    if (stated && stated.slots.text.text.trim() === "") yield { at: stated };
  },
  say: () => ({ text: "The title is empty. Write what the preparation is called, with its dose and volume." }),
});
