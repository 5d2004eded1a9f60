import { doseRule } from "../../bench/dose-rules.ts";
import { inBase } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

const dose = "    dose            4 g per bag\n";

export const minimumAboveMaximum = recipeCheck({
  name: "minimum-above-maximum",
  family: "units",
  severity: "error",
  across: true,
  title: "A smallest dose above the largest",
  why: "No dose keeps both, and the one that is applied last would win unseen.",
  source: "common practice",
  bad: example([dose, `${dose}    maximum         dose 3 g\n    minimum         dose 4 g\n`]),
  good: example([dose, `${dose}    maximum         dose 5 g\n    minimum         dose 4 g\n`]),
  *find({ recipe, runs, lookup }) {
    for (const { point, doses } of runs) {
      const least = doseRule("minimum", recipe, point, doses[0], lookup);
      const most = doseRule("maximum", recipe, point, doses[0], lookup);
      if (!least?.quantity || !most?.quantity || least.quantity.unit.dimension !== most.quantity.unit.dimension)
        continue;
      if (inBase(least.quantity).isAbove(inBase(most.quantity)))
        yield { at: least, least: least.written, most: most.written, other: most };
    }
  },
  say: ({ least, most, other }) => ({
    text: `The minimum dose ${least} is above the maximum dose ${most}. Correct one of them.`,
    related: [{ at: other, text: "the maximum" }],
  }),
});
