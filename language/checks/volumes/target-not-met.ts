import { amountOf, isRefusal, kindOf } from "../../bench/amounts.ts";
import { ionIn, orderedTargets } from "../../bench/targets.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { howFarOff } from "../factor-between.ts";
import { amount } from "../showing.ts";
import { containerShare } from "./container-share.ts";

const diluent = "    diluent         sodium-chloride-0.9\n";

export const targetNotMet = recipeCheck({
  name: "target-not-met",
  family: "volumes",
  severity: "error",
  title: "All sources together do not bring the ordered amount of an ion",
  why: "A nutrition bag is ordered by its totals; salts and fluids each bring their part.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed; site tolerance of doses",
  rows: ["record-elements mfr-calculations"],
  // 4 g of MgSO4·7H2O (246.47 g/mol, formula) is 16.23 mmol of magnesium.
  bad: example([diluent, `    target          magnesium 20 mmol per bag\n${diluent}`]),
  good: example([diluent, `    target          magnesium 16 mmol per bag\n${diluent}`]),
  *find({ recipe, runs, policy }) {
    for (const run of runs) {
      if (run.unknown) continue;
      for (const target of orderedTargets(recipe, run.point)) {
        const kind = target.given && kindOf(target.given);
        if (!target.given || !kind) continue;
        // No drug is needed to read an amount in its own unit.
        const ordered = amountOf(target.given, kind, { name: target.drug, ions: [], salts: [] });
        if (isRefusal(ordered)) continue;
        for (const vessel of run.finals) {
          const part = containerShare(target, vessel, run);
          if (part === undefined || part === "other") continue; // what cannot be compared is said by a check of its own
          const wanted = ordered.times(part);
          const sum = ionIn(vessel, target.drug, kind, run);
          const off = sum.total.minus(wanted).abs();
          if (sum.unknown.length === 0 && off.isAtMost(wanted.times(policy.tolerance.dose))) continue;
          yield { at: target, ion: target.drug, vessel, wanted, kind, sum };
        }
      }
    }
  },
  say({ ion, vessel, wanted, kind, sum }) {
    const parts = sum.parts.map((p) => `${amount(p.amount, kind)} from ${p.source}`).join(", ");
    const where = thingName(vessel);
    if (sum.unknown.length > 0)
      return {
        text: `The order wants ${amount(wanted, kind)} of ${ion} in ${where}; what it holds cannot be summed: ${sum.unknown.join("; ")}. State the contents in the unit of the target, or the formula and ions of the drug.`,
      };
    if (sum.parts.length === 0)
      return {
        text: `The order wants ${amount(wanted, kind)} of ${ion} in ${where}; no source of it is declared there. Add the source, or state what its stock contains.`,
      };
    return {
      text: `The order wants ${amount(wanted, kind)} of ${ion} in ${where}; all sources bring ${amount(sum.total, kind)}${howFarOff(wanted, sum.total)}: ${parts}. Mend the draws or the target.`,
    };
  },
});
