import { rowAt } from "../../bench/order-rows.ts";
import type { Drug } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { isNotKnown } from "../unread-facts.ts";
import { circumstances, type LimitRow } from "./limit-row.ts";
import { concentrations, groupsFor } from "./limit-rows.ts";
import { isSameRoute } from "./route-words.ts";

const limit = "  concentration  up to 200 mg/mL for route intravenous\n";
const central = "  concentration  up to 200 mg/mL for route intravenous access central\n";

export const concentrationNotWatched = recipeCheck<{ at: Spot; drug: Drug; known: string[]; row: LimitRow }>({
  name: "concentration-not-watched",
  family: "limits",
  severity: "warning",
  title: "A drug given by a vein or in a way for which its monograph states no strength",
  why: "What may go into a central vein can destroy the skin around a peripheral one; a limit for the one says nothing of the other.",
  source: "common practice",
  bad: example([limit, central]),
  good: example([limit, `${central}  concentration  up to 100 mg/mL for route intravenous access peripheral\n`]),
  *find(context) {
    const { recipe, run } = context;
    const order = recipe.order;
    const route = order?.one("route")?.slots.route.name ?? "";
    const seen = new Set<string>();
    for (const { drug } of concentrations(run)) {
      const { name } = drug.name;
      if (seen.has(name)) continue;
      seen.add(name);
      const rows = drug.facts.all("concentration") as readonly LimitRow[];
      if (rows.length === 0 || groupsFor(rows, run).length > 0) continue;
      // Rows of the route fail by access or use; a route without any is told where the route is looked at.
      const own = rows.filter(({ slots }) => slots.route && isSameRoute(slots.route.name, route));
      if (own.length === 0 || isNotKnown(drug.facts, "concentration")) continue;
      const at = rowAt(order?.all("access"), run) ?? order?.one("use") ?? order?.one("route");
      if (at) yield { at, drug, known: [...new Set(own.map(circumstances))], row: own[0]! };
    }
  },
  say: ({ drug, known, row }) => ({
    text: `The monograph of ${drug.name.name} limits its strength ${known.join(" and ")} only, so that of this order was laid against nothing. Correct the order, or add the limit that holds for it with its source.`,
    related: [{ at: { start: row.start, end: row.end, chunk: drug.chunk }, text: "the limit" }],
  }),
});
