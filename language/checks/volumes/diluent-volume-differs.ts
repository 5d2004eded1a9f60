import { holds, rowAt } from "../../bench/order.ts";
import type { Run } from "../../bench/run.ts";
import { thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";
import { orderedVolume } from "./ordered.ts";

export const diluentVolumeDiffers = recipeCheck({
  name: "diluent-volume-differs",
  family: "volumes",
  severity: "error",
  title: "The ordered volume of diluent is not what the container holds",
  why: "The order and the materials speak of two different bags, so one of the concentrations is wrong.",
  source: "common practice",
  bad: example(
    ["    diluent-volume  100 mL", "    diluent-volume  250 mL"],
    ["sodium chloride 0.9 % 100 mL", "sodium chloride 0.9 %"],
  ),
  good: example(),
  *find({ recipe, runs }) {
    if (!recipe.order) return;
    for (const run of runs) {
      const method = rowAt(recipe.order.all("method"), run)?.slots.method.choice;
      if (run.overfill !== "label" || method === "build-from-empty" || method === "undiluted") continue;
      for (const { slots, when } of recipe.order.all("diluent-volume")) {
        const ordered = slots.volume;
        if (ordered.quantity?.unit.dimension.key !== "volume") continue;
        if (when && holds(when, run.point, run.doses) !== true) continue;
        // Of a batch one of each kind stands for all that come from the same shelf.
        for (const vessel of run.finals.filter((v, i, all) => all.findIndex((o) => o.stock === v.stock) === i)) {
          const fill = vessel.stock?.facts.one("fluid") && vessel.stock.facts.one("fill")?.slots.fill;
          if (!fill?.quantity || inBase(fill.quantity).equals(inBase(ordered.quantity))) continue;
          if (method === "withdraw-first" && isLeftOf(inBase(fill.quantity), inBase(ordered.quantity), vessel, run))
            continue;
          yield {
            at: ordered,
            ordered: inBase(ordered.quantity),
            where: thingOrEach(vessel, run.finals, (other) => other.stock === vessel.stock),
            fill: inBase(fill.quantity),
          };
        }
      }
    }
  },
  say: ({ ordered, where, fill }) => ({
    text: `The order uses ${ml(ordered)} of diluent; ${where} is filled with ${ml(fill)}. Correct the order, or take the bag that it asks for.`,
  }),
});

/** `diluent-volume 160 mL` of a bag of 250 mL: what the steps leave of it, where the order says at what volume it is to end. */
function isLeftOf(fill: Exact, ordered: Exact, vessel: Vessel, run: Run): boolean {
  if (orderedVolume(run, vessel) === undefined) return false;
  const out = run.steps.flatMap(({ movements }) => movements.filter((m) => m.from === vessel && m.how === "waste"));
  return out.reduce((left, { moved }) => left.minus(moved), fill).equals(ordered);
}
