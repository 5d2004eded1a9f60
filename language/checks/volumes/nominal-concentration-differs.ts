import { kindOf } from "../../bench/amounts.ts";
import { rowsAt } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import { ionHeld } from "../../bench/targets.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import type { Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import type { RecipeContext } from "../context.ts";
import { example } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { slipsOf } from "../slips.ts";
import { isFormTold } from "../units/salt-forms.ts";
import { derivedLike, isWithinHalf, shownLike } from "./held-after.ts";

const stated = "    concentration  37.04 mg/mL\n";

export const nominalConcentrationDiffers = recipeCheck({
  name: "nominal-concentration-differs",
  family: "volumes",
  severity: "error",
  title: "The nominal concentration is not what the true one rounds to",
  why: "A spoken figure far from the truth sets pumps and doses wrong.",
  source: "site tolerance of concentration; common practice",
  rows: ["limits nominal-vs-true-vaso"],
  bad: example([stated, `${stated}    nominal-concentration  50 mg/mL\n`]),
  good: example([stated, `${stated}    nominal-concentration  40 mg/mL\n`]),
  *find(context) {
    const { recipe, runs, policy } = context;
    for (const run of runs) {
      if (run.unknown || run.overfill !== "label") continue;
      for (const preparation of recipe.preparations) {
        for (const { slots } of rowsAt(preparation.facts.all("nominal-concentration"), run)) {
          const measure = slots.concentration;
          if (!measure.quantity) continue;
          for (const vessel of run.finals.filter((v) => v.name === preparation.name.name)) {
            const { value, why } = slots.ion
              ? ionLike(measure.quantity, slots.ion.name, vessel, run)
              : derivedLike(measure.quantity, vessel.liquid, run, slots.drug?.name, slots.salt?.name);
            if (slipsOf(run).reaches(vessel) || isOfFormTold(slots.salt?.name, run, context)) continue;
            // No drug went in: told of the dose.
            if (vessel.liquid.drugs.length === 0 && run.doses.length > 0 && isTold("dose-not-delivered", context))
              continue;
            const counted = slots.ion ? ` of ${slots.ion.name}` : slots.salt ? ` as ${slots.salt.name}` : "";
            const base = { at: measure, written: `${measure.written}${counted}`, vessel, salt: slots.salt };
            if (!value) {
              yield { ...base, value, nominal: measure.quantity, why };
              continue;
            }
            const nominal = measure.quantity.value;
            const near = nominal.minus(value).abs().isAtMost(value.times(policy.tolerance.concentration));
            if (near && roundsTo(value, nominal, measure.decimals)) continue;
            yield { ...base, value, nominal: measure.quantity, why };
          }
        }
      }
    }
  },
  say: ({ written, vessel, value, nominal, why, salt }) =>
    value === undefined
      ? {
          text: `${written} nominal is stated for ${thingName(vessel)}, but it cannot be compared: ${why}. Write the drug's name before the figure or \`of\` an ion behind it, or take it out.`,
        }
      : {
          text: `${thingName(vessel)} is called ${written} nominal; the true concentration is ${shownLike(value, nominal, salt)}${factorBetween(nominal.value, value)}, which does not round to it. Mend the nominal figure or the steps.`,
        },
});

/** No drug here declares the form. */
function isOfFormTold(as: string | undefined, { setup }: Run, context: RecipeContext): boolean {
  return as !== undefined && [...setup.drugs.values()].every((drug) => isFormTold(drug, as, context));
}

/** What the vessel holds of an ion, in the unit of the stated figure. */
function ionLike(stated: Quantity, ion: string, vessel: Vessel, run: Run): { value: Exact | undefined; why: string } {
  const kind = kindOf(stated);
  if (!kind || !stated.unit.dimension.key.endsWith("/volume"))
    return { value: undefined, why: `${stated.unit.spelling} measures no concentration` };
  const held = vessel.liquid.volume.isPositive() ? ionHeld(vessel, ion, kind, run) : undefined;
  if (!held) return { value: undefined, why: `it holds no known amount of ${ion}` };
  return { value: held.over(vessel.liquid.volume).over(stated.unit.factor), why: "" };
}

/** At the digits written, or at those that the nominal figure needs at least: 37.04 rounds to 37 and to 40, never to 38. */
function roundsTo(value: Exact, nominal: Exact, decimals: number): boolean {
  const written = nominal.times(Exact.of(10n ** BigInt(decimals))).toText();
  const zeros = nominal.isPositive() ? written.length - written.replace(/0+$/, "").length : 0;
  return isWithinHalf(value, nominal, decimals - zeros);
}
