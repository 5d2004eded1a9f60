import { holds } from "../../bench/order-rows.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const useWithinMissing = recipeCheck({
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
  *find({ recipe, runs }) {
    for (const preparation of recipe.preparations) {
      if (preparation.facts.isUnread("use-within")) continue;
      const rows = preparation.facts.all("use-within");
      if (rows.length === 0) yield { at: preparation.name, isForSome: false };
      const store = preparation.facts.one("store")?.slots.place;
      const places = rows.map(({ slots }) => slots.place.name);
      if (store && rows.length > 0 && !places.includes(store.name)) yield { at: store, isForSome: false, places };
      // A condition that cannot be judged is told where it stands.
      if (
        rows.length > 0 &&
        runs.some((run) => rows.every(({ when }) => when && holds(when, run.point, run.doses) === false))
      )
        yield { at: preparation.name, isForSome: true };
    }
  },
  say: ({ at, isForSome, places }) => ({
    text: places
      ? `It is kept at ${at.name}, and \`use-within\` speaks of ${[...new Set(places)].join(" and ")} alone. Add the limit for ${at.name}, or correct \`store\`.`
      : isForSome
        ? `Preparation ${at.name} does not say how long it may be used: no row of \`use-within\` holds here. Add one that does.`
        : `Preparation ${at.name} does not say how long it may be used. Add \`use-within\` with a time and a storage place.`,
  }),
});
