import { rowAt, rowsAt } from "../../bench/order-rows.ts";
import { orderedGiving, volumeGiven } from "../../bench/rates.ts";
import type { Run } from "../../bench/run.ts";
import type { Policy } from "../../model/policy.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { fixedHours, hours } from "../../quantities/hours.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

interface TooLong {
  at: MeasureSlot;
  limit: MeasureSlot;
  /** What is given at an ordered rate, and how long that takes; undefined where the order states the time. */
  runsIn: { container: string; volume: Quantity; hours: Quantity } | undefined;
}

const [millilitre, hour] = [findUnit("mL").unit!, findUnit("h").unit!];

export const givenLongerThanKept = recipeCheck<TooLong>({
  name: "given-longer-than-kept",
  family: "limits",
  severity: "warning",
  title: "Given over a longer time than the preparation keeps",
  why: "The last of it runs in after its stability or sterility is no longer known.",
  source: "common practice",
  bad: example(["    infuse-over     4 h", "    infuse-at       2 mL/h"]),
  good: example(["    infuse-over     4 h", "    infuse-at       5 mL/h"]),
  *find({ recipe, run, policy }) {
    const over = rowAt(recipe.order?.all("infuse-over"), run)?.slots.time;
    const at = over ?? rowAt(recipe.order?.all("infuse-at"), run)?.slots.rate;
    const limit = at && longestUse(run);
    if (!limit) return;
    if (over) {
      if (fixedHours(over.quantity)?.isAbove(limit.hours)) yield { at, limit: limit.slot, runsIn: undefined };
      return;
    }
    const runsIn = longerThan(limit.hours, run, policy);
    if (runsIn) yield { at, limit: limit.slot, runsIn };
  },
  say: ({ at, limit, runsIn }) => ({
    text: runsIn
      ? `At ${at.written} the ${showQuantity(runsIn.volume, 4)} of ${runsIn.container} run in ${showQuantity(runsIn.hours, 3)}, and the preparation is used within ${limit.written}. Make less of it, or give it faster; where the rate is only the first and is changed at the bedside, write \`use titrated\`.`
      : `The order gives it over ${at.written}, and the preparation is used within ${limit.written}. Give it in a shorter time, or in several containers.`,
    related: [{ at: limit, text: "the limit" }],
  }),
});

/** The longest of all limits of use, at whatever place. */
function longestUse(run: Run): { slot: MeasureSlot; hours: Exact } | undefined {
  let longest: { slot: MeasureSlot; hours: Exact } | undefined;
  for (const preparation of run.recipe.preparations) {
    for (const { slots } of rowsAt(preparation.facts.all("use-within"), run)) {
      const kept = leastHours(slots.time.quantity);
      if (kept && (!longest || kept.isAbove(longest.hours))) longest = { slot: slots.time, hours: kept };
    }
  }
  return longest;
}

/** A month has 28 days at the least. */
const leastHours = (time: Quantity | undefined): Exact | undefined => hours(time, 28);

/** A container that at the ordered rate runs for longer than the limit, beyond the site's tolerance. A rate that is titrated says nothing of that. */
function longerThan(limit: Exact, run: Run, policy: Policy): TooLong["runsIn"] {
  if (run.recipe.order?.one("use")?.slots.use.choice === "titrated") return undefined;
  const most = limit.plus(limit.times(policy.tolerance.dose));
  for (const vessel of run.finals) {
    const given = volumeGiven(run, vessel) && orderedGiving(run, vessel);
    const taken = given?.volume.over(given.rate.value);
    if (!given || !taken?.isAbove(most)) continue;
    return {
      container: vessel.name,
      volume: { value: given.volume, unit: millilitre },
      hours: { value: taken, unit: hour },
    };
  }
  return undefined;
}
