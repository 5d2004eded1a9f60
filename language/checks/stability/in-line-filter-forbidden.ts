import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { whyNotThrough } from "./filter-forbidden.ts";
import { givenDrugs, lineFilters } from "./in-line-filter.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";
const order: [string, string] = [
  "    infuse-over     4 h\n",
  "    infuse-over     4 h\n    in-line-filter  0.2 micrometre\n",
];

export const inLineFilterForbidden = recipeCheck({
  name: "in-line-filter-forbidden",
  family: "stability",
  severity: "error",
  title: "A filter on the line that holds the drug back or breaks it up",
  why: "The filter keeps the drug and the patient gets the fluid.",
  source:
    "Amphotericin B lipid complex product information, admixture directions (as republished, undated): no in-line filter",
  rows: ["technique-rules no-filter-drugs"],
  bad: example([dose, `${dose}  in-line-filter never below 1.2 micrometre\n`], order),
  good: example([dose, `${dose}  in-line-filter never below 0.2 micrometre\n`], order),
  *find({ recipe, run }) {
    for (const { at, said, pore } of lineFilters(recipe, run)) {
      for (const drug of givenDrugs(run)) {
        // What must not pass a filter on the syringe must not pass it on the line either.
        const rows = [...drug.facts.all("in-line-filter"), ...drug.facts.all("filter")];
        const why = whyNotThrough(drug, pore.quantity, rows);
        if (why) yield { at, drug, said, pore, why };
      }
    }
  },
  say: ({ drug, said, pore, why }) => ({
    text: `${drug.name.name} is given through an in-line filter of ${pore.written} by ${said}; ${why.text}. ${why.isUnsaid ? `Look up which filter lets it pass, and say so in drug ${drug.name.name}, such as \`in-line-filter never below 1.2 micrometre\`; where none does, take none` : "Take a coarser filter, or none"}.`,
  }),
});
