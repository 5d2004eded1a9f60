import type { Run } from "../../bench/run.ts";
import type { Vessel } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { ml } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { dilutionExample } from "../technique/intermediates.ts";
import { orderedVolume } from "./ordered.ts";

const method = "    method          add-to-bag\n";

export const overageDiffers = recipeCheck({
  name: "overage-differs",
  family: "volumes",
  severity: "error",
  title: "The volume prepared beyond need is not the ordered overage",
  why: "With too little the last container runs short; with too much a drug is left standing and unaccounted for.",
  source: "common practice",
  bad: dilutionExample([method, `    overage         2 mL\n${method}`]),
  good: dilutionExample([method, `    overage         16 mL\n${method}`]),
  *find({ recipe, runs, policy }) {
    const fact = recipe.order?.one("overage");
    const stated = fact?.slots.volume;
    if (!fact || !stated?.quantity || stated.quantity.unit.dimension.key !== "volume") return;
    const wanted = inBase(stated.quantity);
    for (const run of runs) {
      if (run.unknown || run.overfill !== "label") continue;
      const left = leftOver(run);
      // The rest of a batch gathers what the draws were rounded by.
      const isRight = (volume: Exact) => volume.minus(wanted).abs().isAtMost(wanted.times(policy.tolerance.volume));
      if (isRight(left) || [...slipsOf(run).wrong.values()].some((fault) => fault === "volume" || fault === "amount"))
        continue;
      const told = toldElsewhere(run);
      if (!told || !isRight(left.minus(told))) yield { at: stated, wanted, left };
    }
  },
  say: ({ wanted, left }) => ({
    text: `The order prepares ${ml(wanted)} beyond need; with samples the steps leave ${ml(left)} in the containers that were drawn from. Correct the volume prepared, or the overage.`,
  }),
});

/**
 * What was prepared and reaches no finished container: the rest in working containers and what was sampled. Where no working
 * container is made, the rest of the stock that was opened.
 */
function leftOver(run: Run): Exact {
  const rest = new Map<Vessel, Exact>();
  const mixed = new Set<Vessel>();
  let sampled = Exact.zero;
  for (const step of run.steps) {
    for (const { from, moved } of step.movements) {
      if (step.verb === "sample") sampled = sampled.plus(moved);
      if (from && !run.finalNames.has(from.name) && from.kind !== "powder-vial") {
        const held = step.after.get(from);
        if (held && held.drugs.length > 0) rest.set(from, held.volume);
      }
    }
    for (const [vessel, liquid] of step.after) if (liquid.stocks.length > 1) mixed.add(vessel);
    if (step.verb === "sample")
      for (const vessel of step.touched) if (vessel.is === "vessel" && vessel.kind === "syringe") rest.delete(vessel);
  }
  const working = [...rest].filter(([vessel]) => mixed.has(vessel));
  const counted = working.length > 0 ? working : [...rest];
  return counted.reduce((sum, [, volume]) => sum.plus(volume), sampled);
}

/** mL that stayed behind because the finished containers hold less than ordered, which is told of them. */
function toldElsewhere(run: Run): Exact | undefined {
  const ordered = run.finals.map((vessel) => orderedVolume(run, vessel));
  if (ordered.includes(undefined) || !isTold("final-volume-differs", run)) return undefined;
  return run.finals.reduce((sum, { liquid }, i) => sum.plus(ordered[i]!.minus(liquid.volume)), Exact.zero);
}
