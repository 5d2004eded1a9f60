import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isGuarded } from "./guarded-routes.ts";
import { isMultiple, preservativeOf, productsGiven, saysNothing, unpreservedFor } from "./preserved.ts";

const neonate: [string, string] = [
  "    access          peripheral\n",
  "    access          peripheral\n    population      neonate\n",
];
/**
 * Insulin has no unpreserved product, and newborns are given it: Insulin (neutral), newborn drug protocol of a children's hospital,
 * Auckland, 2002 (public page, read): continuous infusion of 0.05 units/kg/h.
 */
const givenToNewborns: ReadonlySet<string> = new Set(["metacresol"]);

const ampoule = "  strength   500 mg/mL\n";

export const preservativeByRoute = recipeCheck({
  name: "preservative-by-route",
  family: "limits",
  severity: "error",
  title: "A preservative where none may be given",
  why: "Preservatives damage nerves, and benzyl alcohol has killed newborns.",
  source:
    "Midazolam injection label (FDA-approved label on DailyMed, undated, header): benzyl alcohol, not for neonates",
  rows: ["technique-rules mdv-preservative"],
  bad: example(neonate, [ampoule, `${ampoule}  preservative  benzyl-alcohol\n`]),
  good: example(neonate, [ampoule, `${ampoule}  preservative  none\n`]),
  *find({ recipe, run, lookup }) {
    const whom = unpreservedFor(recipe);
    if (whom === undefined) return;
    const isOnlyNewborn = !isGuarded(recipe.order?.one("route")?.slots.route.name ?? "");
    for (const { at, stock } of productsGiven(recipe, run, lookup)) {
      const fact = stock.facts.one("preservative");
      const preservative = preservativeOf(stock);
      if (isOnlyNewborn && preservative !== undefined && givenToNewborns.has(preservative)) continue;
      const preserved = preservative === undefined ? isMultiple(stock) && saysNothing(stock) : preservative !== "none";
      if (preserved) yield { at, stock, fact, whom };
    }
  },
  say: ({ stock, fact, whom }) => ({
    text: fact
      ? `${stock.name.name} is preserved with ${fact.slots.what.name} and goes to ${whom}. Use a product without preservative.`
      : `${stock.name.name} is a multiple-dose container that does not say its preservative, and goes to ${whom}. Use a product with \`preservative none\`.`,
    related: fact ? [{ at: { start: fact.start, end: fact.end, chunk: stock.chunk }, text: "said here" }] : [],
  }),
});
