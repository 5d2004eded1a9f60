import { thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import type { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { strangersIn } from "./strangers.ts";

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
    *find({ recipe, runs }) {
      const order = recipe.order;
      if (!order || (!order.one("drug") && order.all("additive").length === 0)) return;
      const ordered = [...new Set(order.all("diluent").map((d) => d.slots.fluid.name))];
      // What a bag holds beyond its label changes how much of it there is, and not that it is there.
      const seen = new Set<string>();
      for (const run of runs) {
        for (const vessel of run.finals) {
          for (const [fluid, volume] of strangersIn(vessel, run)) {
            const isSame = (other: Vessel) => other.liquid.fluids.get(fluid)?.equals(volume) === true;
            const name = thingOrEach(vessel, run.finals, isSame);
            if (seen.has(`${name} ${fluid}`)) continue;
            seen.add(`${name} ${fluid}`);
            yield { at: order.one("diluent") ?? order.spot, name, fluid, volume, ordered };
          }
        }
      }
    },
    say: ({ name, fluid, volume, ordered }) => ({
      text: `${ml(volume)} of ${fluid} ends in ${name}; the order names ${ordered.length > 0 ? `${ordered.join(" and ")} as its diluent` : "no diluent"}. State \`diluent ${fluid}\`, or take the fluid that was ordered.`,
    }),
  },
);
