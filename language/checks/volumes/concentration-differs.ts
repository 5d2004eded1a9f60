import { isRefusal, strengthOf } from "../../bench/amounts.ts";
import { thingName } from "../../bench/things.ts";
import { agreesAsWritten } from "../../quantities/rounding.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { strength } from "../showing.ts";

export const concentrationDiffers = recipeCheck({
  name: "concentration-differs",
  family: "volumes",
  severity: "error",
  title: "The stated concentration is not what the steps give",
  why: "Rates and doses are set by the figure on the label.",
  source: "USP <797> 2023, list of the master record: strength equals the result of the steps (study page)",
  rows: [
    "record-elements mfr-name-strength-form",
    "limits nominal-vs-true-vaso",
    "technique-rules powder-displacement",
  ],
  bad: example(["    concentration  37.04 mg/mL", "    concentration  40 mg/mL"]),
  good: example(),
  *find({ recipe, run }) {
    if (run.unknown) return;
    for (const preparation of recipe.preparations) {
      const vessel = run.finals.find((v) => v.name === preparation.name.name);
      if (!vessel?.liquid.volume.isPositive()) continue;
      for (const { slots } of preparation.facts.all("concentration")) {
        const drug = slots.of?.name ?? (vessel.liquid.drugs.length === 1 ? vessel.liquid.drugs[0] : undefined);
        const stated = slots.concentration;
        if (!stated.quantity) continue;
        const kind = drug === undefined ? undefined : run.setup.kinds.get(drug);
        const held = drug === undefined ? undefined : vessel.liquid.amounts.get(drug);
        if (!kind || !held || drug === undefined) {
          yield { at: stated, stated: stated.written, drug: undefined, vessel, shown: "", factor: "" };
          continue;
        }
        const claimed = strengthOf(
          stated.quantity,
          kind,
          run.setup.drugs.get(drug)?.substance ?? { name: drug, ions: [], salts: [] },
        );
        if (isRefusal(claimed)) continue; // said where the units are judged
        const exact = held.over(vessel.liquid.volume);
        // Compared as written: the derived figure, in the unit of the stated one, rounded to its digits.
        const inStatedUnit = exact.over(claimed).times(stated.quantity.value);
        if (claimed.isPositive() && agreesAsWritten(inStatedUnit, stated.quantity.value, stated.decimals)) continue;
        yield {
          at: stated,
          stated: stated.written,
          drug,
          vessel,
          shown: strength(held, vessel.liquid.volume, kind),
          factor: factorBetween(claimed, exact),
        };
      }
    }
  },
  say: ({ stated, drug, vessel, shown, factor }) =>
    drug === undefined
      ? {
          text: `${stated} is stated for ${thingName(vessel)}, but it does not say of which drug. Write the drug's name before the figure.`,
        }
      : {
          text: `States ${stated}; the steps give ${shown} of ${drug} in ${thingName(vessel)}${factor}. A rounded figure as spoken is a \`nominal-concentration\`. Mend the figure or the steps.`,
        },
});
