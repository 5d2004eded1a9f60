import { orderedTargets } from "../../bench/targets.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { containerShare } from "./container-share.ts";

const over = "    infuse-over     4 h\n";

export const dosePerTimeNotCompared = recipeCheck({
  name: "dose-per-time-not-compared",
  family: "volumes",
  severity: "warning",
  title: "A dose per time in an order that does not say how long a container is given",
  why: "How much the container must hold cannot be told, so its content is not compared with the order.",
  source: "common practice",
  bad: example(
    ["dose            4 g per bag", "dose            4 g per 4 h"],
    ["  rate           up to 9 g/h for route intravenous\n", ""],
    [over, "    use             titrated\n"],
    ["  capacity   150 mL\n", '  capacity   150 mL\n  overfill   5 mL to 10 mL  source guide "fluids"\n'],
  ),
  good: example(["dose            4 g per bag", "dose            4 g per 4 h"]),
  *find({ recipe, runs }) {
    for (const run of runs) {
      for (const dose of [...run.doses, ...orderedTargets(recipe, run.point)]) {
        if (!dose.given || !("time" in dose.per)) continue;
        if (run.finals.some((vessel) => containerShare(dose, vessel, run) === undefined))
          yield { at: dose, dose: dose.measure.written, drug: dose.drug, time: dose.per.time.written };
      }
    }
  },
  say: ({ dose, drug, time }) => ({
    text: `${dose} of ${drug} per ${time} is not compared with the container, because the order does not say how long it is given. State \`infuse-over\`, or \`infuse-at\` in mL/h.`,
  }),
});
