/** Fluids that reach a finished container although the order names them not. */
import { happened, type Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import type { Exact } from "../../quantities/exact.ts";
import { isTold } from "../consequences.ts";
import { cameWithPowder } from "./diluents.ts";

/** Each with its mL. Another fluid than the label's in a vial is told there, and is none of them. */
export function strangersIn(vessel: Vessel, run: Run): readonly (readonly [fluid: string, volume: Exact])[] {
  const { order } = run.recipe;
  if (!order || (!order.one("drug") && order.all("additive").length === 0)) return [];
  // The line that cannot be read may name the fluid.
  if (order.isUnread("diluent")) return [];
  const ordered = new Set(order.all("diluent").map((d) => d.slots.fluid.name));
  const toldElsewhere = new Set(happened(run, "reconstituted-with-other-fluid").map((h) => h.data.fluid));
  return [...vessel.liquid.fluids].filter(
    ([fluid, volume]) =>
      volume.isPositive() &&
      !ordered.has(fluid) &&
      !toldElsewhere.has(fluid) &&
      // A drug's own solution stands among the fluids under the drug's name.
      run.setup.fluids.has(fluid) &&
      // What dissolved a powder came in with the drug.
      !volume.isAtMost(cameWithPowder(fluid, vessel, run)),
  );
}

/** Whether it is told of a fluid that it is here at all, in a vial or in a finished container: what it meets is then no finding of its own. */
export function isToldAsStranger(fluid: string, run: Run): boolean {
  return (
    (isTold("fluid-not-ordered", run) &&
      run.finals.some((vessel) => strangersIn(vessel, run).some(([name]) => name === fluid))) ||
    (isTold("reconstituted-with-other-fluid", run) &&
      happened(run, "reconstituted-with-other-fluid").some(({ data }) => data.fluid === fluid))
  );
}
