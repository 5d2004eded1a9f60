import { doseRule } from "../../bench/dose-rules.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

const dose = "    dose            4 g per bag\n";

export const capNotAMultiple = recipeCheck({
  name: "cap-not-a-multiple",
  family: "units",
  severity: "warning",
  across: true,
  title: "A largest or smallest dose that is no multiple of the rounding step",
  why: "The dose is rounded first and capped afterwards, so that a capped dose is none that the rounding allows.",
  source: "common practice",
  bad: example([dose, `${dose}    round           dose to nearest 250 mg\n    maximum         dose 4.1 g\n`]),
  good: example([dose, `${dose}    round           dose to nearest 250 mg\n    maximum         dose 4.25 g\n`]),
  *find({ recipe, runs, lookup }) {
    for (const { point, doses } of runs) {
      const round = doseRule("round", recipe, point, doses[0], lookup);
      const step = round?.quantity;
      if (!recipe.order || !round || !step?.value.isPositive()) continue;
      for (const word of ["maximum", "minimum"] as const) {
        const limit = doseRule(word, recipe, point, doses[0], lookup);
        if (!limit?.quantity || limit.quantity.unit.dimension !== step.unit.dimension) continue;
        if (!inBase(limit.quantity).over(inBase(step)).isWhole())
          yield { at: limit, word, limit: limit.written, step: round.written };
      }
    }
  },
  say: ({ word, limit, step }) => ({
    text: `The ${word} dose ${limit} is no multiple of ${step}, to which the dose is rounded: at the ${word} the dose given is not a rounded one. Choose a ${word} that is a multiple, or another rounding.`,
  }),
});
