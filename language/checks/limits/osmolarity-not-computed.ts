import { rowAt } from "../../bench/order-rows.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { isNotKnown } from "../unread-facts.ts";
import { osmolarityOf } from "./osmolarity.ts";

const perLitre = findUnit("mOsm/L").unit!;

export const osmolarityNotComputed = recipeCheck({
  name: "osmolarity-not-computed",
  family: "limits",
  severity: "note",
  title: "Whether the osmolarity suits a vein of the arm is not known",
  why: "What cannot be computed is not found to be in order.",
  source: "Parenteral nutrition chapter (medical textbook section): 900 mOsm/L; the site sets its own limit",
  bad: example(['  formula        "MgSO4.7H2O"\n', ""], ["  ion            magnesium charge 2\n", ""]),
  good: example(),
  *find(context) {
    const { recipe, runs, policy } = context;
    const ways = recipe.order?.all("access");
    if (!ways?.some(({ slots }) => slots.access.choice === "peripheral")) return;
    const limit = inBase(policy.peripheralOsmolarity);
    const seen = new Set<string>();
    for (const run of runs) {
      if (run.unknown) continue;
      const access = rowAt(ways, run);
      if (access?.slots.access.choice !== "peripheral") continue;
      for (const vessel of run.finals) {
        const found = osmolarityOf(vessel, run);
        // Above the limit already, or below it whatever the unknown part brings: nothing is left open.
        if (!found || seen.has(vessel.name) || found.uncounted.length === 0 || found.least.isAbove(limit)) continue;
        if (found.most?.isAtMost(limit) || slipsOf(run).reaches(vessel)) continue;
        const isTold = ({ name }: { name: string }) => {
          const drug = run.setup.drugs.get(name);
          const fluid = run.setup.fluids.get(name);
          return isNotKnown(fluid?.facts, "osmolarity") || isNotKnown(drug?.facts, "formula");
        };
        if (found.uncounted.some(isTold)) continue;
        seen.add(vessel.name);
        yield { at: access, vessel, found };
      }
    }
  },
  say({ vessel, found }, { policy }) {
    const value = showQuantity({ value: found.least.over(perLitre.factor), unit: perLitre }, 3);
    return {
      text: `The osmolarity of ${vessel.name} is not computed, because ${found.uncounted.map((u) => u.lacks).join(" and ")}; what is known adds up to ${value}, and the site's limit for a peripheral vein is ${showQuantity(policy.peripheralOsmolarity)}. Add the fact, or look the osmolarity up.`,
    };
  },
});
