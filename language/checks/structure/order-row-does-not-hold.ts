import { holds } from "../../bench/order.ts";
import type { Spot } from "../../model/slots.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { powderExample } from "../example.ts";

/** Facts of which one row has to hold for every patient once one is stated. */
const words = ["diluent", "diluent-volume", "final-volume", "method", "infuse-over", "infuse-at"] as const;

export const orderRowDoesNotHold = recipeCheck<{ at: Spot; word: string; point: string; count: number }>({
  name: "order-row-does-not-hold",
  family: "structure",
  severity: "error",
  title: "A fact of the order that depends on the dose, with no row or two rows for some dose",
  why: "For a patient in the gap nothing is ordered; for one in the overlap two things are.",
  source: "common practice",
  bad: powderExample([
    "    diluent-volume  100 mL\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
    "    diluent-volume  100 mL  when dose above 600 mg\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
  ]),
  good: powderExample([
    "    diluent-volume  100 mL\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
    "    diluent-volume  100 mL  when dose up to 600 mg\n    method          add-to-bag\n    route           intravenous\n    access          peripheral\n    infuse-over     60 min",
  ]),
  *find({ recipe, runs }) {
    for (const word of words) {
      const rows = recipe.order?.all(word) ?? [];
      if (!rows.some((r) => r.when)) continue;
      for (const run of runs) {
        const here = rows.map((r) => (r.when ? holds(r.when, run.point, run.doses) : true));
        // A condition that cannot be judged is told where it stands.
        if (here.includes(undefined)) continue;
        const count = here.filter((h) => h).length;
        if (count === 1) continue;
        const given = run.doses[0]?.given;
        const at = [...run.point].map(([input, value]) => `${input} ${showQuantity(value)}`);
        const point = [...at, given ? `a dose of ${showQuantity(given)}` : ""].filter((t) => t).join(", ");
        yield { at: rows[0]!, word, point, count };
      }
    }
  },
  say: ({ word, point, count }) => ({
    text: `For ${point} ${count === 0 ? `no row of \`${word}\` holds` : `${count} rows of \`${word}\` hold`}. Let exactly one hold for every order.`,
  }),
});
