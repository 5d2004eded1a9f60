import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";

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
  *find({ recipe, run, lookup }) {
    const route = recipe.order?.one("route");
    if (!route || recipe.order?.one("population") || recipe.order?.isUnread("population")) return;
    const reached = new Set(run.finals.flatMap((v) => v.liquid.stocks));
    const seen = new Set<string>();
    for (const { item } of recipe.materials) {
      if (!reached.has(item.name) || seen.has(item.name)) continue;
      seen.add(item.name);
      const stock = lookup.find("stock", item.name);
      const fact = stock?.facts.one("preservative");
      if (!stock || !fact || fact.slots.what.name === "none") continue;
      yield { at: item, stock, fact, route };
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
