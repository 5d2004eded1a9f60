import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const useWithinMissing = recipeCheck({
  name: "use-within-missing",
  family: "record",
  severity: "error",
  title: "A preparation without a beyond-use limit",
  why: "Without a limit it is kept until somebody wonders.",
  source: "Record elements for sterile preparations: master record",
  rows: ["record-elements mfr-bud-storage", "record-elements label-bud", "record-elements napra-label-05"],
  bad: example([
    `    use-within     24 h at room-temperature
`,
    "",
  ]),
  good: example(),
  *find({ recipe }) {
    for (const preparation of recipe.preparations) {
      if (!preparation.facts.one("use-within")) yield { at: preparation.name };
    }
  },
  say: ({ at }) => ({
    text: `Preparation ${at.name} does not say how long it may be used. Add \`use-within\` with a time and a storage place.`,
  }),
});
