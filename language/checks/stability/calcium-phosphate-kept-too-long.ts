import { rowAt, rowsAt } from "../../bench/order-rows.ts";
import { ionIn } from "../../bench/targets.ts";
import { tablePlace } from "../../model/beyond-use-policy.ts";
import type { MeasureSlot, NameSlot, Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { hours } from "../../quantities/hours.ts";
import { recipeCheck } from "../check.ts";
import { thiamineCompatible, twoDrugs } from "./two-drugs.ts";

interface Kept {
  at: Spot;
  time: MeasureSlot;
  place: NameSlot;
  container: string;
  /** Time of giving that is added to it, in words. */
  giving: MeasureSlot | undefined;
}

const longest = Exact.of(24);

/** Both ampoules of the example stand for sources of calcium and phosphate. */
const kept = (time: string) =>
  twoDrugs(
    [
      thiamineCompatible,
      `${thiamineCompatible}\n  together       calcium up to 5 mmol/L with phosphate up to 15 mmol/L`,
    ],
    [
      "  strength   50 mg/mL\n  fill       2 mL\n",
      "  strength   50 mg/mL\n  contains   phosphate 0.5 mmol/mL\n  contains   calcium 0.1 mmol/mL\n  fill       2 mL\n",
    ],
    ["    use-within     24 h at room-temperature\n", `    use-within     ${time} at room-temperature\n`],
  );

export const calciumPhosphateKeptTooLong = recipeCheck<Kept>({
  name: "calcium-phosphate-kept-too-long",
  family: "stability",
  severity: "warning",
  title: "Calcium and phosphate together at room temperature for more than 24 h",
  why: "Crystals of calcium phosphate form slowly and the sooner the warmer; what is clear when it is made need not stay so.",
  source:
    "Calcium phosphate precipitates and acute respiratory distress (public medical-algorithms site summarising the 1994 alert, undated, prevention items 1 to 10): in use within 24 h at room temperature, and within 24 h of rewarming",
  rows: ["limits cap-time"],
  bad: kept("21 h"),
  good: kept("20 h"),
  *find({ recipe, run, policy }) {
    const giving =
      policy.useWithinCounts === "start" ? rowAt(recipe.order?.all("infuse-over"), run)?.slots.time : undefined;
    for (const vessel of run.finals) {
      const both = ["calcium", "phosphate"].every((ion) => {
        const sum = ionIn(vessel, ion, "moles", run);
        return sum.parts.length > 0 || sum.unknown.length > 0;
      });
      const preparation = recipe.preparations.find((p) => p.name.name === vessel.name);
      if (!both || !preparation) continue;
      for (const fact of rowsAt(preparation.facts.all("use-within"), run)) {
        const { time, place } = fact.slots;
        const length = hours(time.quantity);
        if (!length || tablePlace(place.name) !== "controlled-room-temperature") continue;
        if (length.isAbove(longest)) yield { at: fact, time, place, container: vessel.name, giving: undefined };
        else if (giving && hours(giving.quantity)?.plus(length).isAbove(longest))
          yield { at: fact, time, place, container: vessel.name, giving };
      }
    }
  },
  say: ({ time, place, container, giving }) => ({
    text: giving
      ? `${container} holds calcium and phosphate and may be begun ${time.written} after mixing at ${place.name}, then runs for ${giving.written}: in all more than 24 h. Let it end within 24 h: shorten the limit, or keep it in the refrigerator until it is begun.`
      : `${container} holds calcium and phosphate and may be used for ${time.written} at ${place.name}; 24 h is the published limit from mixing to the end of use. Shorten the limit, or keep it in the refrigerator until it is begun.`,
  }),
});
