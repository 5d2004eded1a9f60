import { rowAt } from "../../bench/order.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { fixedHours } from "../../quantities/hours.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const givenLongerThanKept = recipeCheck<{ at: MeasureSlot; limit: MeasureSlot }>({
  name: "given-longer-than-kept",
  family: "limits",
  severity: "warning",
  title: "Given over a longer time than the preparation keeps",
  why: "The last of it runs in after its stability or sterility is no longer known.",
  source: "common practice",
  bad: example(["    infuse-over     4 h", "    infuse-over     40 h"]),
  good: example(),
  *find({ recipe, run }) {
    const over = rowAt(recipe.order?.all("infuse-over"), run)?.slots.time;
    const time = fixedHours(over?.quantity);
    if (!over || !time) return;
    let longest: MeasureSlot | undefined;
    for (const preparation of recipe.preparations) {
      for (const row of preparation.facts.all("use-within")) {
        const limit = fixedHours(row.slots.time.quantity);
        if (limit && (!longest || limit.isAbove(fixedHours(longest.quantity)!))) longest = row.slots.time;
      }
    }
    if (longest && time.isAbove(fixedHours(longest.quantity)!)) yield { at: over, limit: longest };
  },
  say: ({ at, limit }) => ({
    text: `The order gives it over ${at.written}, and the preparation is used within ${limit.written}. Give it in a shorter time, or in several containers.`,
    related: [{ at: limit, text: "the limit" }],
  }),
});
