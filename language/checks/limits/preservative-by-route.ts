import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isGuarded } from "./guarded-routes.ts";

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
    const route = recipe.order?.one("route")?.slots.route.name ?? "";
    const newborn = recipe.order?.one("population")?.slots.who.choice === "neonate";
    if (!isGuarded(route) && !newborn) return;
    const reached = new Set(run.finals.flatMap((v) => v.liquid.stocks));
    const seen = new Set<string>();
    for (const { item } of recipe.materials) {
      const stock = reached.has(item.name) && !seen.has(item.name) ? lookup.find("stock", item.name) : undefined;
      if (!stock) continue;
      seen.add(item.name);
      const fact = stock.facts.one("preservative");
      if (fact && newborn && !isGuarded(route) && givenToNewborns.has(fact.slots.what.name)) continue;
      const preserved = fact
        ? fact.slots.what.name !== "none"
        : stock.facts.one("doses")?.slots.doses.choice === "multiple";
      if (preserved) yield { at: item, stock, fact, whom: isGuarded(route) ? `route ${route}` : "a neonate" };
    }
  },
  say: ({ stock, fact, whom }) => ({
    text: fact
      ? `${stock.name.name} is preserved with ${fact.slots.what.name} and goes to ${whom}. Use a product without preservative.`
      : `${stock.name.name} is a multiple-dose container that does not say its preservative, and goes to ${whom}. Use a product with \`preservative none\`.`,
    related: fact ? [{ at: { start: fact.start, end: fact.end, chunk: stock.chunk }, text: "said here" }] : [],
  }),
});
