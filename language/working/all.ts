/** Every figure of a run with its working, in the order in which a person works through the recipe. */
import type { Surroundings } from "../bench/beyond-use.ts";
import type { Run } from "../bench/run.ts";
import { afterStepWorkings, contentWorkings } from "./contents.ts";
import { containerWorkings, doseWorkings, stepWorkings } from "./figures.ts";
import { useWithinWorkings, worstCaseWorkings } from "./limits.ts";
import { rateWorkings } from "./rates.ts";
import { solutionWorkings, weightWorkings } from "./solution.ts";
import type { Working } from "./working.ts";

export function allWorkings(run: Run, around: Surroundings): Working[] {
  return [
    ...doseWorkings(run),
    ...stepWorkings(run),
    ...containerWorkings(run),
    ...afterStepWorkings(run),
    ...contentWorkings(run),
    ...solutionWorkings(run),
    ...weightWorkings(run),
    ...rateWorkings(run),
    ...useWithinWorkings(run, around),
    ...worstCaseWorkings(run, around),
  ];
}
