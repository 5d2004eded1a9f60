import { filledWeight } from "../../bench/filled-weight.ts";
import { inBase, showQuantity } from "../../quantities/quantity.ts";
import { findUnit } from "../../quantities/unit.ts";
import { recipeCheck } from "../check.ts";
import { replaceText } from "../edits.ts";
import { filledBag } from "./filled-bag.ts";

const gram = findUnit("g").unit!;

export const filledWeightDiffers = recipeCheck({
  name: "filled-weight-differs",
  family: "limits",
  severity: "error",
  title: "The stated weight of the filled container is not what its parts weigh",
  why: "The balance is a second check of what went in; with a wrong figure it passes the wrong bag and stops the right one.",
  source: "common practice",
  bad: filledBag("    filled-weight  131 g\n"),
  good: filledBag("    filled-weight  121 g\n"),
  *find({ recipe, run }) {
    if (run.unknown) return;
    for (const vessel of run.finals) {
      const fact = recipe.preparations.find((p) => p.name.name === vessel.name)?.facts.one("filled-weight");
      const stated = fact?.slots.weight;
      if (!fact || stated?.quantity?.unit.dimension.key !== "mass" || vessel.index > 1) continue;
      const { filled } = filledWeight(vessel, run);
      if (!filled) continue;
      const derived = { value: filled.over(stated.quantity.unit.factor), unit: stated.quantity.unit };
      const asWritten = { value: derived.value.roundedTo(stated.decimals), unit: derived.unit };
      if (inBase(asWritten).equals(inBase(stated.quantity))) continue;
      yield { at: fact, stated, derived, asWritten, weight: filledWeight(vessel, run), container: vessel.name };
    }
  },
  say({ stated, derived, weight, container }) {
    const parts = weight.parts.map(({ name, volume, density, mass }) => {
      const grams = showQuantity({ value: mass, unit: gram }, 4);
      return volume && density
        ? `${name} ${showQuantity({ value: volume, unit: findUnit("mL").unit! }, 4)} × ${showQuantity({ value: density, unit: findUnit("g/mL").unit! })} = ${grams}`
        : `${name} ${grams}`;
    });
    return {
      text: `States ${stated.written} for the filled ${container}; its parts and the empty container weigh ${showQuantity(derived, 4)} (${parts.join("; ")}). Correct the figure, or the density that is wrong.`,
    };
  },
  fixes: ({ stated, asWritten }) => [
    { title: `State ${showQuantity(asWritten)}`, edits: [replaceText(stated, showQuantity(asWritten))] },
  ],
});
