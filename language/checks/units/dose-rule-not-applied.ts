import { doseRule } from "../../bench/dose-rules.ts";
import type { MeasureSlot } from "../../model/slots.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isDoseRefused } from "../dose-refused.ts";
import { example } from "../example.ts";

export const doseRuleNotApplied = recipeCheck<{ at: MeasureSlot; word: string; dose: string | undefined }>({
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
  *find({ recipe, runs, lookup }) {
    const order = recipe.order;
    if (!order) return;
    // An additive, or a strength that is ordered, is neither rounded nor capped.
    const isOfDose = order.one("dose") !== undefined || order.isUnread("dose");
    for (const run of runs) {
      const [dose] = run.doses;
      const given = dose?.given;
      for (const word of ["round", "maximum", "minimum"] as const) {
        const at = doseRule(word, recipe, run.point, dose, lookup);
        if (at && !isOfDose) yield { at, word, dose: undefined };
        if (!isOfDose || !given || !at?.quantity || at.quantity.unit.dimension === given.unit.dimension) continue;
        if (isDoseRefused(run)) continue;
        yield { at, word, dose: showQuantity(given) };
      }
    }
  },
  say: ({ at, word, dose }) => ({
    text:
      dose === undefined
        ? `\`${word}\` (${at.written}) speaks of the \`dose\` of the order, which states none, so the rule is not applied. Order one drug by \`dose\`, or write the rounded or capped amount itself.`
        : `\`${word}\` is stated as ${at.written}, and the dose is ${dose}: the two measure different things, so the rule is not applied. State it in the unit of the dose.`,
  }),
});
