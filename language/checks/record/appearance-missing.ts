import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

export const appearanceMissing = writtenCheck({
  name: "appearance-missing",
  family: "record",
  severity: "warning",
  title: "A preparation without a word on how it looks",
  why: "Whoever inspects it has to know what it should look like.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): physical description",
  rows: ["record-elements mfr-appearance"],
  bad: example([
    `    appearance     "clear, colourless, free of particles"
`,
    "",
  ]),
  good: example(),
  *find({ recipe }) {
    for (const preparation of recipe.preparations) {
      // A line that cannot be read has its own finding.
      if (preparation.facts.isUnread("appearance")) continue;
      if (!preparation.facts.one("appearance")) yield { at: preparation.name };
    }
  },
  say: ({ at }) => ({
    text: `Preparation ${at.name} does not say what it should look like. Add \`appearance\` with colour, clearness and particles.`,
  }),
});
