import { allOf } from "../../bench/spoken.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { drugsNotForIt } from "./guarded-route-not-in-monograph.ts";
import type { LimitRow } from "./limit-row.ts";
import { concentrations, groupsFor } from "./limit-rows.ts";
import { drugsGiven } from "./route-not-in-monograph.ts";
import { isSameRoute } from "./route-words.ts";

export const rateNotWatched = recipeCheck<{ at: Spot; drugs: string[] }>({
  name: "rate-not-watched",
  family: "limits",
  severity: "note",
  title: "An infusion of a drug for which no limit of rate is declared",
  why: "How fast it is given was laid against nothing, and must not look as if it had been.",
  source: "common practice",
  bad: example(["  rate           up to 9 g/h for route intravenous\n", ""]),
  good: example(),
  *find(context) {
    const { recipe, run } = context;
    const order = recipe.order;
    const timed = order?.one("infuse-over") ?? order?.one("infuse-at");
    if (!order?.one("route") || !timed || order.one("use")?.slots.use.choice === "titrated") return;
    const drugs = new Set<string>();
    const elsewhere = toldByRoute(context);
    for (const { drug } of concentrations(run)) {
      const { name } = drug.name;
      if (groupsFor(drug.facts.all("rate") as readonly LimitRow[], run).length > 0) continue;
      if (!isNotKnown(drug.facts, "rate") && !elsewhere.has(name)) drugs.add(name);
    }
    if (drugs.size > 0) yield { at: timed, drugs: [...drugs] };
  },
  say: ({ drugs }) => ({
    text: `The ${drugs.length > 1 ? "monographs" : "monograph"} of ${allOf(drugs)} ${drugs.length > 1 ? "declare" : "declares"} no \`rate\` for this route, so how fast it is given was not checked. Add the limit with its source, or \`rate any for route …\` where there is none.`,
  }),
});

/** Drugs that are told as not for this route at all: that their rate by it is not known only repeats that. */
function toldByRoute(context: RecipeContext): ReadonlySet<string> {
  const { recipe, run } = context;
  const route = recipe.order?.one("route")?.slots.route.name ?? "";
  const unnamed = isTold("guarded-route-not-in-monograph", context) ? drugsNotForIt(recipe, run) : [];
  const forbidden = isTold("route-forbidden", context)
    ? drugsGiven(run).filter(({ facts }) =>
        facts.all("never").some(({ slots }) => isSameRoute(slots.route.name, route)),
      )
    : [];
  return new Set([...unnamed, ...forbidden].map(({ name }) => name.name));
}
