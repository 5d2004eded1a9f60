import { isRefusal, strengthOf } from "../../bench/amounts.ts";
import { thingName } from "../../bench/things.ts";
import { showQuantity } from "../../quantities/quantity.ts";
import { agreesAsWritten } from "../../quantities/rounding.ts";
import { agrees } from "../agreement.ts";
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
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): the strength equals the result of the steps",
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
        const drug = slots.drug?.name ?? (vessel.liquid.drugs.length === 1 ? vessel.liquid.drugs[0] : undefined);
        const stated = slots.concentration;
        if (!stated.quantity) continue;
        const kind = drug === undefined ? undefined : run.setup.kinds.get(drug);
        const held = drug === undefined ? undefined : vessel.liquid.amounts.get(drug);
        if (!kind || !held || drug === undefined) {
          yield {
            at: stated,
            stated: stated.written,
            drug: undefined,
            vessel,
            shown: "",
            factor: "",
            measuresElse: false,
          };
          continue;
        }
        const claimed = strengthOf(
          stated.quantity,
          kind,
          run.setup.drugs.get(drug)?.substance ?? { name: drug, ions: [], salts: [] },
        );
        if (isRefusal(claimed)) {
          // What is no concentration at all is told as a unit in the wrong place.
          if (stated.quantity.unit.dimension.key.split("/").length !== 2) continue;
          const own = strength(held, vessel.liquid.volume, kind);
          yield { at: stated, stated: stated.written, drug, vessel, shown: own, factor: "", measuresElse: true };
          continue;
        }
        const exact = held.over(vessel.liquid.volume);
        // Compared as written: the derived figure, in the unit of the stated one, rounded to its digits.
        const inStatedUnit = exact.over(claimed).times(stated.quantity.value);
        const { value } = stated.quantity;
        if (
          claimed.isPositive() &&
          (agreesAsWritten(inStatedUnit, value, stated.decimals) || agrees(inStatedUnit, value))
        )
          continue;
        yield {
          at: stated,
          stated: stated.written,
          drug,
          vessel,
          shown: inBoth(
            showQuantity({ value: inStatedUnit, unit: stated.quantity.unit }),
            strength(held, vessel.liquid.volume, kind),
          ),
          factor: factorBetween(claimed, exact),
          measuresElse: false,
        };
      }
    }
  },
  say: ({ stated, drug, vessel, shown, factor, measuresElse }) =>
    measuresElse
      ? {
          text: `${thingName(vessel)} holds ${shown} of ${drug}; ${stated} measures something else and cannot be laid against it. State the concentration in the unit of the drug's strength.`,
        }
      : drug === undefined
        ? {
            text: `${stated} is stated for ${thingName(vessel)}, but it does not say of which drug. Write the drug's name before the figure.`,
          }
        : {
            text: `States ${stated}; the steps give ${shown} of ${drug} in ${thingName(vessel)}${factor}. A rounded figure as spoken is a \`nominal-concentration\`. Mend the figure or the steps.`,
          },
});

/** In the unit of the statement, so that the two can be compared, and in the usual one. */
function inBoth(asStated: string, usual: string): string {
  return asStated === usual ? usual : `${asStated} (${usual})`;
}
