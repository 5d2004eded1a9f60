import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { givenDrugs, lineFilters } from "./in-line-filter.ts";

const dose = "  dose           from 500 mg up to 10 g for any route\n";
const needed = `${dose}  in-line-filter required up to 0.2 micrometre\n`;
const order = (pore: string) => `    infuse-over     4 h\n    in-line-filter  ${pore}\n`;

export const inLineFilterMissing = recipeCheck({
  name: "in-line-filter-missing",
  family: "stability",
  severity: "error",
  title: "A drug that is given through a filter on the line, and the order does not say so or says too coarse a one",
  why: "What falls out in the line, or came with the drug, reaches the vein; the ward reads from the label what to give it through.",
  source: "common practice",
  bad: example([dose, needed], ["    infuse-over     4 h\n", order("1.2 micrometre")]),
  good: example([dose, needed], ["    infuse-over     4 h\n", order("0.2 micrometre")]),
  *find({ recipe, run }) {
    if (run.plan.broken || !recipe.order) return;
    const filters = lineFilters(recipe, run);
    for (const drug of givenDrugs(run)) {
      for (const fact of drug.facts.all("in-line-filter")) {
        if (!fact.slots.required) continue;
        const most = fact.slots.pore;
        const isFine = filters.some(
          ({ pore }) =>
            !most ||
            (pore.quantity !== undefined &&
              most.quantity !== undefined &&
              pore.quantity.unit.dimension === most.quantity.unit.dimension &&
              inBase(pore.quantity).isAtMost(inBase(most.quantity))),
        );
        if (isFine) continue;
        const at = filters[0]?.at ?? recipe.order.one("route") ?? recipe.order.spot;
        yield { at, drug, fact, most, said: filters.map(({ said, pore }) => `${said} has ${pore.written}`) };
      }
    }
  },
  say: ({ drug, fact, most, said }) => ({
    text: `${drug.name.name} is given through an in-line filter${most ? ` of ${most.written} or finer` : ""}; ${said.length > 0 ? said.join(" and ") : "the order names none"}. Write \`in-line-filter\` with its pore in the order.`,
    related: [{ at: { start: fact.start, end: fact.end, chunk: drug.chunk }, text: "said here" }],
  }),
});
