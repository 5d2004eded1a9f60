import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { productsGiven, unpreservedFor } from "./preserved.ts";

const access = "    access          peripheral\n";
const ampoule = "  strength   500 mg/mL\n";
const preserved: [string, string] = [ampoule, `${ampoule}  preservative  benzyl-alcohol\n`];

export const populationNotSaid = recipeCheck({
  name: "population-not-said",
  family: "limits",
  severity: "warning",
  title: "A preserved product in an order that does not say for whom",
  why: "Benzyl alcohol has killed newborns; without `population` nobody watches whether it reaches one.",
  source:
    "Midazolam injection label (FDA-approved label on DailyMed, undated, header): benzyl alcohol, not for neonates",
  rows: ["technique-rules mdv-preservative"],
  bad: example(preserved),
  good: example(preserved, [access, `${access}    population      adult\n`]),
  *find({ recipe, run, lookup, policy }) {
    const route = recipe.order?.one("route");
    if (!route || recipe.order?.one("population") || recipe.order?.isUnread("population")) return;
    // That it is preserved is told as an error then, whoever it is for.
    if (unpreservedFor(recipe) !== undefined && isTold("preservative-by-route", { recipe, policy })) return;
    for (const { at, stock } of productsGiven(recipe, run, lookup)) {
      const fact = stock.facts.one("preservative");
      if (fact && fact.slots.what.name !== "none") yield { at, stock, fact, route };
    }
  },
  say: ({ stock, fact }) => ({
    text: `${stock.name.name} is preserved with ${fact.slots.what.name}. Preservatives are kept from newborns, and the order does not say for whom it is. Add \`population\` (adult, child or neonate).`,
    related: [{ at: { start: fact.start, end: fact.end, chunk: stock.chunk }, text: "said here" }],
  }),
  fixes: ({ route }) =>
    ["adult", "child"].map((who) => ({
      title: `Say that it is for ${who === "adult" ? "an adult" : "a child"}`,
      edits: [replaceText({ start: route.end, end: route.end }, `\n    population      ${who}`)],
    })),
});
