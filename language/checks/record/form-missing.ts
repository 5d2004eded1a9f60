import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

export const formMissing = writtenCheck({
  name: "form-missing",
  family: "record",
  severity: "warning",
  title: "A preparation without its dosage form",
  why: "Form, strength and name together say what the finished thing is.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): name, strength and form",
  rows: ["record-elements mfr-name-strength-form", "record-elements label-form"],
  bad: example([
    `    form           solution-for-infusion
`,
    "",
  ]),
  good: example(),
  *find({ recipe }) {
    for (const preparation of recipe.preparations) {
      if (!preparation.facts.one("form") && !preparation.facts.isUnread("form")) yield { at: preparation.name };
    }
  },
  say: ({ at }) => ({
    text: `Preparation ${at.name} does not say its dosage form. Add \`form\`, such as solution-for-infusion.`,
  }),
});
