import { nearNames } from "../../model/near.ts";
import { libraryCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";
import { isNotKnown } from "../unread-facts.ts";
import { countedFigures, formsOf, isFormNotKnown } from "./salt-forms.ts";

const salts = `  counted-as     anhydrous
  salt           heptahydrate 2.05 g for 1 g`;

export const saltNotKnown = libraryCheck({
  name: "salt-not-known",
  family: "units",
  severity: "error",
  title: "A figure counted as a form that the drug does not declare",
  why: "Without its mass the form would be taken for the base, and the dose would be wrong by the whole factor.",
  source: "common practice",
  bad: example(
    ["  light          not-sensitive", `  light          not-sensitive\n${salts}`],
    ["strength   500 mg/mL", "strength   500 mg/mL as anhydrous"],
    ["dose            4 g per bag", "dose            4 g as anhydrus per bag"],
  ),
  good: example(
    ["  light          not-sensitive", `  light          not-sensitive\n${salts}`],
    ["strength   500 mg/mL", "strength   500 mg/mL as anhydrous"],
    ["dose            4 g per bag", "dose            4 g as anhydrous per bag"],
  ),
  *find({ declaration, lookup }) {
    for (const { measure, as, drug, word } of countedFigures(declaration, lookup)) {
      const forms = formsOf(drug);
      if (!as || !isFormNotKnown(drug, as.name)) continue;
      if (["counted-as", "salt"].some((word) => isNotKnown(drug.facts, word))) continue;
      yield {
        at: { start: as.start, end: as.end },
        named: as.name,
        written: measure.written,
        word,
        drug: drug.name.name,
        forms,
      };
    }
  },
  say: ({ named, written, word, drug, forms }) => ({
    text: `The ${word} ${written} counts ${named}, which ${drug} does not declare. ${forms.length > 0 ? `Write ${oneOf(forms)}, or declare` : "Declare"} \`salt ${named}\` with its mass.`,
  }),
  fixes: ({ at, named, forms }) =>
    nearNames(named, forms).map((form) => ({ title: `Write ${form}`, edits: [replaceText(at, form)] })),
});
