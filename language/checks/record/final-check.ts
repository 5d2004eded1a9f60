/** The last `check by` of a recipe, before which everything that it looks at has to stand. */
import type { Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";

export function isCheckBy(step: StepRun): boolean {
  return step.verb === "check" && "role" in (step.slots as object);
}

export function finalCheck(run: Run): StepRun | undefined {
  return run.steps.findLast((s) => isCheckBy(s) && !s.skipped);
}
