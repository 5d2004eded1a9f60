import { happened, type Run } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

export const fluidNotOrdered = recipeCheck<{ at: Spot; name: string; fluid: string; volume: Exact; ordered: string[] }>(
  {
    name: "fluid-not-ordered",
    family: "volumes",
    severity: "error",
    title: "A fluid reaches the finished container that the order does not name",
    why: "The order is what was prescribed and checked; another fluid may harm the drug or the patient.",
    source: "common practice",
    bad: example(
      ["    diluent         sodium-chloride-0.9\n", ""],
      ["    diluent-volume  100 mL\n", ""],
      ["    method          add-to-bag\n", ""],
    ),
    good: example(),
    *find({ recipe, runs, lookup }) {
      const order = recipe.order;
      if (!order || (!order.one("drug") && order.all("additive").length === 0)) return;
      const ordered = order.all("diluent").map((d) => d.slots.fluid.name);
      for (const run of runs) {
        // Another fluid than the label's in a vial is told there.
        const toldElsewhere = new Set(happened(run, "reconstituted-with-other-fluid").map((h) => h.data.fluid));
        for (const vessel of run.finals) {
          for (const [fluid, volume] of vessel.liquid.fluids) {
            if (!volume.isPositive() || ordered.includes(fluid) || toldElsewhere.has(fluid)) continue;
            // A drug's own solution stands among the fluids under the drug's name.
            if (!lookup.find("fluid", fluid)) continue;
            // What dissolved a powder came in with the drug.
            if (volume.isAtMost(intoPowder(run, fluid))) continue;
            yield { at: order.one("diluent") ?? order.spot, name: thingName(vessel), fluid, volume, ordered };
          }
        }
      }
    },
    say: ({ name, fluid, volume, ordered }) => ({
      text: `${ml(volume)} of ${fluid} ends in ${name}; the order names ${ordered.length > 0 ? `${ordered.join(" and ")} as its diluent` : "no diluent"}. State \`diluent ${fluid}\`, or take the fluid that was ordered.`,
    }),
  },
);

/** mL of a fluid that went into powder containers. */
function intoPowder(run: Run, fluid: string): Exact {
  let sum = Exact.zero;
  for (const { movements } of run.steps) {
    for (const { to, liquid } of movements) {
      if (to?.stock?.facts.one("content") === undefined) continue;
      sum = sum.plus(liquid.fluids.get(fluid) ?? Exact.zero);
    }
  }
  return sum;
}
