import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { concentrations, groupsFor, type LimitRow } from "./limit-rows.ts";

export const rateNotWatched = recipeCheck<{ at: Spot; drug: string }>({
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
    const said = new Set<string>();
    for (const { drug } of concentrations(run)) {
      const { name } = drug.name;
      if (said.has(name) || groupsFor(drug.facts.all("rate") as readonly LimitRow[], run).length > 0) continue;
      said.add(name);
      if (isNotKnown(drug.facts, "rate")) continue;
      yield { at: timed, drug: name };
    }
  },
  say: ({ drug }) => ({
    text: `The monograph of ${drug} declares no \`rate\` for this route, so how fast it is given was not checked. Add the limit with its source, or \`rate any for route …\` where there is none.`,
  }),
});
