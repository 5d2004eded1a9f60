/** Edits that put a missing line into a block or a step into the steps. */

import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Vessel } from "../../bench/things.ts";
import { isMixing } from "../../bench/verbs/mixing.ts";
import type { Recipe } from "../../model/declaration.ts";

export type Preparation = Recipe["preparations"][number];

/** Finished containers for which `lacks` holds, one for each name. */
export function lacking(run: Run, lacks: (vessel: Vessel) => boolean): Vessel[] {
  const found = new Map<string, Vessel>();
  for (const vessel of run.finals) if (lacks(vessel) && !found.has(vessel.name)) found.set(vessel.name, vessel);
  return [...found.values()];
}

/** The last step in which liquid reaches or leaves the container, or it is mixed. */
export function lastWork(run: Run, vessel: Vessel): StepRun | undefined {
  return run.steps.findLast(
    (s) =>
      s.movements.some((m) => m.to === vessel || m.from === vessel) || (isMixing(s.verb) && s.touched.includes(vessel)),
  );
}
