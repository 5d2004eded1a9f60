import { happened } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { oneOf } from "../showing.ts";

const labelCountsSalt: readonly [string, string][] = [
  [
    "  light          not-sensitive",
    "  light          not-sensitive\n  counted-as     anhydrous\n  salt           heptahydrate 2 g for 1 g",
  ],
  ["strength   500 mg/mL", "strength   1 g/mL as heptahydrate"],
  ["dose            4 g per bag", "dose            4 g as anhydrous per bag"],
];

export const drawnFormNotSaid = recipeCheck({
  name: "drawn-form-not-said",
  family: "units",
  severity: "warning",
  title: "A draw by weight that does not say which form it counts, from a label that counts another",
  why: "Whoever reads the label takes the figure as the label counts: another dose.",
  source: "common practice",
  bad: example(...labelCountsSalt),
  good: example(...labelCountsSalt, ["draw 4 g from mag", "draw 4 g as anhydrous from mag"]),
  happening: "drawn-form-not-said",
  find: ({ run }) =>
    happened(run, "drawn-form-not-said").map((h) => ({ at: h.spot, number: h.step.number, ...h.data })),
  say: ({ number, vessel, amount, form, base }) => ({
    text: `Step ${number} asks for ${amount} from ${vessel.name}, whose label counts ${form}; the ${amount} are taken as ${base ?? "the base"}. Write ${oneOf([base, form].flatMap((each) => (each ? [`\`${amount} as ${each}\``] : [])))}.`,
  }),
  // Which form is meant is a clinical choice: no fix is offered.
});
