import { rowAt } from "../../bench/order-rows.ts";
import { orderedGiving, volumeGiven } from "../../bench/rates.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { hoursOfGiving } from "../../quantities/hours.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

interface Differing {
  at: MeasureSlot;
  rate: MeasureSlot;
  container: string;
  volume: Quantity;
  hours: Quantity;
}

const [millilitre, hour] = [findUnit("mL").unit!, findUnit("h").unit!];
const over = "    infuse-over     4 h\n";

export const rateAndTimeDiffer = recipeCheck<Differing>({
  name: "rate-and-time-differ",
  family: "limits",
  severity: "error",
  title: "An order whose rate and time of giving contradict each other",
  why: "One nurse sets the rate and another the time; the two give it at different speeds.",
  source: "common practice",
  bad: example([over, `${over}    infuse-at       54 mL/h\n`]),
  good: example([over, `${over}    infuse-at       27 mL/h\n`]),
  *find({ recipe, run, policy }) {
    const time = rowAt(recipe.order?.all("infuse-over"), run)?.slots.time;
    const rate = rowAt(recipe.order?.all("infuse-at"), run)?.slots.rate;
    const stated = hoursOfGiving(time?.quantity);
    if (!time || !rate || !stated) return;
    for (const vessel of run.finals) {
      const given = volumeGiven(run, vessel) && orderedGiving(run, vessel);
      if (!given) continue;
      const hours = given.volume.over(given.rate.value);
      if (hours.minus(stated).abs().isAtMost(stated.times(policy.tolerance.dose))) continue;
      yield {
        at: time,
        rate,
        container: vessel.name,
        volume: { value: given.volume, unit: millilitre },
        hours: { value: hours, unit: hour },
      };
      return;
    }
  },
  say: ({ at, rate, container, volume, hours }) => ({
    text: `At ${rate.written} the ${showQuantity(volume, 4)} of ${container} run in ${showQuantity(hours, 3)}; the order also says ${at.written}. Correct one of the two, or state only one.`,
    related: [{ at: rate, text: "the rate" }],
  }),
});
