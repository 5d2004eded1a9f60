import type { MeasureSlot } from "../../model/slots.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";

export const doseRuleNotApplied = recipeCheck<{ at: MeasureSlot; word: string; dose: string }>({
  name: "dose-rule-not-applied",
  family: "units",
  severity: "error",
  title: "A rounding or a cap that measures something else than the dose",
  why: "A rule that cannot be laid against the dose does nothing, and looks as if it did.",
  source: "common practice",
  bad: example([
    "    dose            4 g per bag\n",
    "    dose            4 g per bag\n    maximum         dose 5 mmol\n",
  ]),
  good: example([
    "    dose            4 g per bag\n",
    "    dose            4 g per bag\n    maximum         dose 5 g\n",
  ]),
  *find({ recipe, runs }) {
    const order = recipe.order;
    if (!order) return;
    const rules: [string, MeasureSlot | undefined][] = [
      ["round", order.one("round")?.slots.step],
      ["maximum", order.one("maximum")?.slots.limit],
      ["minimum", order.one("minimum")?.slots.limit],
    ];
    for (const run of runs) {
      const given = run.doses[0]?.given;
      for (const [word, at] of rules) {
        if (!given || !at?.quantity || at.quantity.unit.dimension === given.unit.dimension) continue;
        yield { at, word, dose: showQuantity(given) };
      }
    }
  },
  say: ({ at, word, dose }) => ({
    text: `\`${word}\` is stated as ${at.written}, and the dose is ${dose}: the two measure different things, so the rule is not applied. State it in the unit of the dose.`,
  }),
});
