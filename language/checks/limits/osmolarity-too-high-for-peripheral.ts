import { rowAt } from "../../bench/order-rows.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { osmolarityOf } from "./osmolarity.ts";

const perLitre = findUnit("mOsm/L").unit!;
const role = "  role           pharmacist\n";

export const osmolarityTooHighForPeripheral = recipeCheck({
  name: "osmolarity-too-high-for-peripheral",
  family: "limits",
  // No error: a published peripheral formula for the newborn has 913 mOsm/L (limits osm-neonatal-example).
  severity: "warning",
  title: "Too concentrated in all for a vein of the arm",
  why: "A solution far above the osmolarity of blood inflames a small vein.",
  source: "Parenteral nutrition chapter (medical textbook section): 900 mOsm/L; the site sets its own limit",
  rows: [
    "limits osm-periph-900",
    "limits osm-periph-espen",
    "limits osm-periph-espen-hi",
    "limits osm-periph-ins",
    "limits osm-label-600",
    "limits osm-formula",
    "limits osm-neonatal-example",
  ],
  bad: example([role, `${role}  peripheral-osmolarity  up to 500 mOsm/L\n`]),
  good: example([role, `${role}  peripheral-osmolarity  up to 600 mOsm/L\n`]),
  *find({ recipe, runs, policy }) {
    const ways = recipe.order?.all("access");
    if (!ways?.some(({ slots }) => slots.access.choice === "peripheral")) return;
    const seen = new Set<string>();
    for (const run of runs) {
      if (run.unknown) continue;
      const access = rowAt(ways, run);
      if (access?.slots.access.choice !== "peripheral") continue;
      for (const vessel of run.finals) {
        const osmolarity = osmolarityOf(vessel, run);
        if (!osmolarity || seen.has(vessel.name) || osmolarity.least.isAtMost(inBase(policy.peripheralOsmolarity)))
          continue;
        if (slipsOf(run).reaches(vessel)) continue;
        seen.add(vessel.name);
        yield { at: access, vessel, osmolarity };
      }
    }
  },
  say: ({ vessel, osmolarity }, { policy }) => {
    const value = showQuantity({ value: osmolarity.least.over(perLitre.factor), unit: perLitre }, 3);
    const uncounted =
      osmolarity.uncounted.length > 0
        ? ` (${osmolarity.uncounted.map((u) => u.name).join(", ")} not counted, for want of figures)`
        : "";
    return {
      text: `${vessel.name} has about ${value} or more${uncounted}; the site's limit for a peripheral vein is ${showQuantity(policy.peripheralOsmolarity)}. Dilute it more, or give it by a central line.`,
    };
  },
});
