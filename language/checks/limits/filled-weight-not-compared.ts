import { filledWeight } from "../../bench/filled-weight.ts";
import { recipeCheck } from "../check.ts";
import { filledBag } from "./filled-bag.ts";

export const filledWeightNotCompared = recipeCheck({
  name: "filled-weight-not-compared",
  family: "limits",
  severity: "note",
  title: "A stated weight of the filled container that could not be worked out",
  why: "A figure that was laid against nothing must not look as if it had been.",
  source: "common practice",
  bad: filledBag("    filled-weight  121 g\n", ["  empty-weight  9 g\n", ""]),
  good: filledBag("    filled-weight  121 g\n"),
  *find({ recipe, run }) {
    for (const vessel of run.finals) {
      const fact = recipe.preparations.find((p) => p.name.name === vessel.name)?.facts.one("filled-weight");
      if (!fact || vessel.index > 1) continue;
      const { filled, lacks } = filledWeight(vessel, run);
      if (filled && !run.unknown) continue;
      const why = run.unknown ? ["the figures of the steps are not known"] : lacks;
      yield { at: fact, written: fact.slots.weight.written, container: vessel.name, why };
    }
  },
  say: ({ written, container, why }) => ({
    text: `States ${written} for the filled ${container}, and the weight could not be worked out: ${why.join("; ")}. Add the fact with its source, or weigh one and keep the figure in the record.`,
  }),
});
