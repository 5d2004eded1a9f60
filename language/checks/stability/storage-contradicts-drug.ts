import { isSamePlace } from "../../model/usual-words.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { finished } from "./stable-rows.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";

export const storageContradictsDrug = recipeCheck({
  name: "storage-contradicts-drug",
  family: "stability",
  severity: "error",
  title: "Kept where the diluted drug spoils",
  why: "Some dilutions fall out in the cold; a longer date in a table does not help them.",
  source: "Guidelines for intravenous phenytoin preparation (public clinical page, undated, storage)",
  rows: ["technique-rules no-refrigerate-flag"],
  bad: example([dose, `${dose}  never-stored   room-temperature in sodium-chloride-0.9\n`]),
  good: example([dose, `${dose}  never-stored   refrigerator in sodium-chloride-0.9\n`]),
  *find({ recipe, runs }) {
    for (const run of runs) {
      for (const { vessel, drugs } of finished(run)) {
        const facts = recipe.preparations.find((p) => p.name.name === vessel.name)?.facts;
        if (!facts) continue;
        const places = [...facts.all("use-within"), ...facts.all("store")];
        const seen = new Set<string>();
        for (const drug of drugs) {
          for (const never of drug.facts.all("never-stored")) {
            const { place, fluid } = never.slots;
            if (fluid && !vessel.liquid.fluids.has(fluid.name)) continue;
            const kept = places.find((p) => isSamePlace(p.slots.place.name, place.name));
            if (!kept || seen.has(`${drug.name.name} ${place.name}`)) continue;
            seen.add(`${drug.name.name} ${place.name}`);
            yield { at: kept, drug, never };
          }
        }
      }
    }
  },
  say: ({ drug, never }) => {
    const { place, fluid } = never.slots;
    return {
      text: `Kept at ${place.name}, but ${drug.name.name}${fluid ? ` in ${fluid.name}` : " once diluted"} must never be stored there. Name another storage place with its own limit.`,
      related: [{ at: { start: never.start, end: never.end, chunk: drug.chunk }, text: "said here" }],
    };
  },
});
