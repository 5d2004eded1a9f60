import { rowAt } from "../../bench/order-rows.ts";
import { type GivingRate, givingRateIfRough } from "../../bench/rates.ts";
import type { Spot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { standardAnd } from "../example.ts";
import { percent } from "../showing.ts";

interface NotSettable {
  at: Spot;
  container: string;
  found: GivingRate;
  /** What can be had, beside what is ordered, in the same unit. */
  wanted: Quantity;
  had: Quantity;
  off: Exact;
  by: "drops" | "pump";
  /** It is titrated, and this is the rate that it begins with. */
  isStarted: boolean;
}

const givingSet = `
device giving-set-20 {
  kind         tubing
  drop-factor  20 drops/mL  source guide "giving sets"
}
`;

/** The standard bag by drops: 108 mL in so many hours. */
const byDrops = (time: string) =>
  standardAnd(givingSet)
    .replace("    needle       needle-18-gauge\n", "    needle       needle-18-gauge\n    set          giving-set-20\n")
    .replace("needle, syringe for check", "needle, syringe, set for check")
    .replace("  role           pharmacist\n", "  pump-step      0.1 mL/h\n  role           pharmacist\n")
    .replace("infuse-over     4 h", `infuse-over     ${time}`);

export const rateNotSettable = recipeCheck<NotSettable>({
  name: "rate-not-settable",
  family: "limits",
  severity: "warning",
  title: "A rate that the pump or the drops of the set cannot give",
  why: "What is set instead gives another rate than the order, and the smaller the rate the more it is off.",
  source: "common practice",
  bad: byDrops("23 h"),
  good: byDrops("4 h"),
  *find({ recipe, run, policy }) {
    const { order } = recipe;
    const timed = rowAt(order?.all("infuse-at"), run) ?? rowAt(order?.all("infuse-over"), run);
    if (!timed) return;
    // What is titrated is set anew at the bedside; the rate that it is started at must be one that can be set.
    const isStarted = order?.one("use")?.slots.use.choice === "titrated";
    const said = new Set<string>();
    for (const vessel of run.finals) {
      const found = givingRateIfRough(run, vessel, policy, policy.tolerance.dose);
      if (!found || said.has(vessel.name)) continue;
      const wanted = found.drops?.exact ?? found.rate;
      const had = found.drops?.counted ?? found.pump;
      const off = had.value.minus(wanted.value).abs().over(wanted.value);
      if (off.isAtMost(policy.tolerance.dose)) continue;
      said.add(vessel.name);
      const by = found.drops ? "drops" : "pump";
      yield { at: timed, container: vessel.name, found, wanted, had, off, by, isStarted };
    }
  },
  say({ container, found, wanted, had, off, by, isStarted }, { policy }) {
    const step = showQuantity({ value: policy.pumpStep, unit: findUnit("mL/h").unit! });
    const means =
      by === "drops"
        ? `counted in whole drops of ${found.drops!.set} that is ${showQuantity(had)}`
        : `a pump set in steps of ${step} gives ${showQuantity(had)}`;
    return {
      text: `${container} is to ${isStarted ? "start" : "run"} at ${showQuantity(wanted, 4)}; ${means}, ${percent(off)} off, and the site allows ${percent(policy.tolerance.dose)}. ${by === "drops" ? "Give it by a pump, or with a set of more drops to the mL" : "Dilute it more, or give it with a finer pump"}.`,
    };
  },
});
