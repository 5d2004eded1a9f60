import { happened } from "../../bench/run.ts";
import { thingName } from "../../bench/things.ts";
import type { Stock } from "../../model/declaration.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { powderExample } from "../example.ts";
import { isPowderSlip } from "../powder-slips.ts";
import { amount, ml } from "../showing.ts";
import { powderLabel } from "../stock/powder-label.ts";

export const displacementNegative = recipeCheck({
  name: "displacement-negative",
  family: "volumes",
  severity: "warning",
  title: "A label whose figures leave the powder less than no room",
  why: "The label means something else than it says; its strength is not used.",
  source: "ampicillin label as read: 125 mg, 1.2 mL added, 125 mg/mL",
  rows: [],
  bad: powderExample(
    ["    gives         50 mg/mL", "    gives         62.5 mg/mL"],
    ["into measure at equal pressure  = 10 mL", "into measure at equal pressure  = 10 mL"],
  ),
  good: powderExample(),
  happening: "displacement-negative",
  // Vials of one product have one label.
  find(context) {
    const all = happened(context.run, "displacement-negative");
    return all
      .filter(({ data }, i) => all.findIndex((other) => other.data.vessel.stock === data.vessel.stock) === i)
      .filter(({ data }) => !isPowderSlip(data.vessel.stock, context))
      .map((h) => ({ at: h.spot, step: h.step, ...h.data, filled: filledWith(h.data.vessel.stock, context) }));
  },
  say: ({ vessel, implied, filled }) => ({
    text: `The label of ${thingName(vessel)} implies that the powder takes up ${ml(implied)}; that cannot be. The strength is computed from what is added; check the label.${filled ? ` If the vial is filled with more than it names, state that as \`content\`: ${filled} would give the label's strength.` : ""}`,
  }),
});

/** What the vial would hold for its liquid to have the strength of the label, if the powder took up no room. */
function filledWith(stock: Stock | undefined, { lookup }: RecipeContext): string | undefined {
  const label = stock && powderLabel(stock, lookup);
  return label?.added && label.gives ? amount(label.added.volume.times(label.gives.perMl), label.kind) : undefined;
}
