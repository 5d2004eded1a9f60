/** Figures that an author writes beside a step, against what the step moves. */
import type { StepRun } from "../bench/step-run.ts";
import { inBase } from "../quantities/quantity.ts";

/** Whether the volume stated beside the step is another than it moves, which `claim-differs` tells. */
export function contradictsItsClaim(step: StepRun): boolean {
  const { moved } = step;
  return (
    !step.skipped &&
    moved !== undefined &&
    step.claims.some(({ kind, from, to }) => {
      if (kind !== "moves" || !from.quantity || !to.quantity) return false;
      if (from.quantity.unit.dimension.key !== "volume" || to.quantity.unit.dimension.key !== "volume") return false;
      return moved.isBelow(inBase(from.quantity)) || moved.isAbove(inBase(to.quantity));
    })
  );
}
