import { writtenCheck } from "../check.ts";
import { example } from "../example.ts";

export const useWithinMissing = writtenCheck({
  name: "use-within-missing",
  family: "record",
  severity: "error",
  title: "A preparation without a beyond-use limit",
  why: "Without a limit it is kept until somebody wonders.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): beyond-use date and storage",
  rows: [
    "record-elements mfr-bud-storage",
    "record-elements label-bud",
    "record-elements napra-label-05",
    "record-elements label-storage",
    "record-elements napra-label-04",
    "record-elements my-label-04",
    "record-elements my-label-06",
  ],
  bad: example([
    `    use-within     24 h at room-temperature
`,
    "",
  ]),
  good: example(),
  *find({ recipe }) {
    for (const preparation of recipe.preparations) {
      if (!preparation.facts.one("use-within") && !preparation.facts.isUnread("use-within"))
        yield { at: preparation.name };
    }
  },
  say: ({ at }) => ({
    text: `Preparation ${at.name} does not say how long it may be used. Add \`use-within\` with a time and a storage place.`,
  }),
});
