import { amountOf, isRefusal } from "../../bench/amounts.ts";
import { thingOrEach, type Vessel } from "../../bench/things.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { howFarOff } from "../factor-between.ts";
import { amount } from "../showing.ts";
import { isRoundedToNothing } from "../units/dose-rounded-to-nothing.ts";
import { containerShare } from "./container-share.ts";

export const doseNotDelivered = recipeCheck({
  name: "dose-not-delivered",
  family: "volumes",
  severity: "error",
  title: "The steps do not bring the ordered dose into the container",
  why: "The patient gets another dose than ordered.",
  source:
    "site tolerance; finished content within 90 to 110 percent is the wider public standard (oxytocin injection monograph, USP 35)",
  rows: ["limits content-90-110"],
  bad: example(
    ["    dose            4 g per bag", "    dose            5 g per bag"],
    ["magnesium-4g {", "magnesium-5g {"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 5 g"],
  ),
  good: example(),
  *find({ runs, policy }) {
    for (const run of runs) {
      if (run.unknown) continue;
      for (const dose of run.doses) {
        if (!dose.given || isRoundedToNothing(dose)) continue;
        const kind = run.setup.kinds.get(dose.drug);
        const substance = run.setup.drugs.get(dose.drug)?.substance;
        if (!kind || !substance) {
          yield { at: dose, dose, where: undefined, wanted: undefined, found: Exact.zero, kind: "mass" as const };
          continue;
        }
        const ordered = amountOf(dose.given, kind, substance, dose.as, dose.ion);
        if (isRefusal(ordered)) continue; // said where the units are judged
        for (const vessel of run.finals) {
          const share = containerShare(dose, vessel, run);
          if (share === undefined || share === "other") continue; // what cannot be compared is said by a check of its own
          const wanted = ordered.times(share);
          const held = (one: Vessel) => one.liquid.amounts.get(dose.drug) ?? Exact.zero;
          const found = held(vessel);
          const off = found.minus(wanted).abs();
          if (!off.isAbove(wanted.times(policy.tolerance.dose))) continue;
          const where = thingOrEach(vessel, run.finals, (other) => held(other).equals(found));
          yield { at: dose, dose, where, wanted, found, kind };
        }
      }
    }
  },
  say({ dose, where, wanted, found, kind }) {
    if (!where || !wanted)
      return {
        text: `The order asks for ${dose.measure.written} of ${dose.drug}, but no material holds it. Add the stock and the steps.`,
      };
    return {
      text: `The order asks for ${amount(wanted, kind)} of ${dose.drug}; the steps bring ${found.isZero() ? `none into ${where}` : `${amount(found, kind)} into ${where}${howFarOff(wanted, found)}`}. Mend the draws or the order.`,
    };
  },
});
