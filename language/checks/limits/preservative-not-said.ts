import { allOf } from "../../bench/spoken.ts";
import type { Stock } from "../../model/declaration.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { drugsNotForIt } from "./guarded-route-not-in-monograph.ts";
import { isGuarded } from "./guarded-routes.ts";
import { isMultiple, productsGiven, saysNothing, unpreservedFor } from "./preserved.ts";

const neonate: [string, string] = [
  "    access          peripheral\n",
  "    access          peripheral\n    population      neonate\n",
];
const ampoule = "  strength   500 mg/mL\n";

export const preservativeNotSaid = recipeCheck({
  name: "preservative-not-said",
  family: "limits",
  severity: "warning",
  title: "A product that does not say whether it is preserved, where no preservative may be given",
  why: "Single-dose products are preserved too; whether one is free of preservative stands on its label and nowhere else.",
  source:
    "Midazolam injection label (FDA-approved label on DailyMed): contains benzyl alcohol, not for use in neonates; the spinal canal and the eye from memory",
  rows: ["technique-rules mdv-preservative"],
  bad: example(neonate),
  good: example(neonate, [ampoule, `${ampoule}  preservative  none\n`]),
  *find({ recipe, run, lookup, policy }) {
    const whom = unpreservedFor(recipe);
    if (whom === undefined || isRouteTold({ recipe, run, policy })) return;
    const isGuardedRoute = isGuarded(recipe.order?.one("route")?.slots.route.name ?? "");
    const silent = [...productsGiven(recipe, run, lookup)].filter(
      ({ stock }) => saysNothing(stock) && !isMultiple(stock) && (isGuardedRoute || !isInfusion(stock)),
    );
    const [first, ...others] = silent;
    if (first) yield { ...first, others, whom };
  },
  say: ({ stock, others, whom }) => {
    const names = [stock, ...others.map((o) => o.stock)].map((s) => s.name.name);
    const [do_, go, it] = names.length === 1 ? ["does", "goes", "it is"] : ["do", "go", "they are"];
    return {
      text: `${allOf(names)} ${do_} not say whether ${it} preserved, and ${go} to ${whom}. Read the label: add \`preservative none\` to the product where it is free of preservative, or use one that is.`,
      related: others.map(({ at, stock: other }) => ({ at, text: `${other.name.name} does not say it either` })),
    };
  },
});

/** That the route is a slip is told: nothing is asked of the products for it. */
function isRouteTold({ recipe, run, policy }: Pick<RecipeContext, "recipe" | "run" | "policy">): boolean {
  return drugsNotForIt(recipe, run).length > 0 && isTold("guarded-route-not-in-monograph", { recipe, policy });
}

/** A bag of infusion fluid: infusions hold no added preservative (European Pharmacopoeia, Parenteral preparations, from memory). */
function isInfusion({ facts }: Stock): boolean {
  return facts.one("fluid") !== undefined && facts.one("container")?.slots.kind.choice === "bag";
}
