import { recipeCheck } from "../check.ts";
import { withoutLine } from "../edits.ts";
import { example } from "../example.ts";

const dose = "    dose            4 g per bag\n";

/** The standard order by concentration and final volume, as for a pump reservoir. */
const byConcentration = example(
  [dose, "    concentration   37.04 mg/mL\n    final-volume    108 mL\n"],
  ['"Magnesium sulfate 4 g in', '"Magnesium sulfate in'],
);

export const doseAndConcentrationOrdered = recipeCheck({
  name: "dose-and-concentration-ordered",
  family: "volumes",
  severity: "error",
  across: true,
  title: "An order that states both a dose and a concentration",
  why: "Two orders for one container can contradict each other, and only the dose would be followed.",
  source: "common practice",
  bad: example([dose, `${dose}    concentration   37.04 mg/mL\n`]),
  good: byConcentration,
  *find({ recipe }) {
    const ordered = recipe.order?.one("dose");
    const second = recipe.order?.one("concentration");
    if (ordered && second)
      yield { at: second, dose: ordered.slots.dose.written, second: second.slots.concentration.written };
  },
  say: ({ dose: ordered, second }) => ({
    text: `The order states a dose of ${ordered} and a concentration of ${second}. State the dose, or the concentration with its \`final-volume\`; the finished concentration belongs to \`preparation\`.`,
  }),
  fixes: ({ at }, { chunk }) => [{ title: "Take the ordered concentration out", edits: [withoutLine(chunk.text, at)] }],
});
