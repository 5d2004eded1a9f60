import { volumeForPatient } from "../../bench/order.ts";
import { holds, rowsOf } from "../../bench/order-rows.ts";
import { thingOrEach } from "../../bench/things.ts";
import { vesselKey } from "../../bench/vessels.ts";
import { inBase } from "../../quantities/quantity.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { lostByMarks } from "../claims.ts";
import { isTold } from "../consequences.ts";
import { example } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { ml, percent } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { missingOf } from "./diluents.ts";

const diluent = "    diluent-volume  100 mL\n";

export const finalVolumeDiffers = recipeCheck({
  name: "final-volume-differs",
  family: "volumes",
  severity: "error",
  title: "The finished container does not hold the ordered final volume",
  why: "Pump settings, rates and the concentration on the label rest on the volume in the container.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: example([diluent, `${diluent}    final-volume    100 mL\n`]),
  good: example([diluent, `${diluent}    final-volume    108 mL\n`]),
  *find({ recipe, runs, policy }) {
    // By the labels first: what is wrong by them is told once, however full the bags are.
    const byLabel = new Set<string>();
    const labelled = runs.filter(({ overfill }) => overfill === "label");
    for (const run of [...labelled, ...runs.filter(({ overfill }) => overfill !== "label")]) {
      if (run.unknown) continue;
      for (const { slots, when } of recipe.order?.all("final-volume") ?? []) {
        const ordered = slots.volume;
        if (when && holds(when, run.point, run.doses) !== true) continue;
        const here = ordered.quantity && volumeForPatient(ordered.quantity, run.point);
        if (!here) continue;
        const wanted = inBase(here);
        for (const vessel of run.finals) {
          // In a series each container has its own row.
          if (!rowsOf(recipe.order!.all("final-volume"), vessel.name).some((row) => row.slots === slots)) continue;
          const off = vessel.liquid.volume.minus(wanted).abs();
          if (agrees(vessel.liquid.volume, wanted) || slipsOf(run).changesVolumeOf(vessel)) continue;
          // The calculated volume is ordered; that no mark shows it is told of the draw.
          // What was drawn before it is made up to a volume is made good by that.
          const madeUp = run.steps.findLast((s) => s.verb === "make" && !s.skipped && s.result === vessel);
          if (agrees(vessel.liquid.volume.plus(lostByMarks(run, madeUp)), wanted)) continue;
          if (isTold("diluent-not-delivered", run) && agrees(vessel.liquid.volume.plus(missingOf(vessel, run)), wanted))
            continue;
          // The label's volumes add up exactly; what the overfill of a bag changes is measured by the site's tolerance.
          if (run.overfill !== "label" && off.isAtMost(wanted.times(policy.tolerance.volume))) continue;
          const key = `${ordered.start} ${vesselKey(vessel)}`;
          if (run.overfill === "label") byLabel.add(key);
          else if (byLabel.has(key)) continue;
          const found = vessel.liquid.volume;
          const where = thingOrEach(vessel, run.finals, (other) => other.liquid.volume.equals(found));
          yield { at: ordered, wanted, where, found, overfill: run.overfill };
        }
      }
    }
  },
  say: ({ wanted, where, found, overfill }) => {
    const how = overfill === "label" ? "" : ` where the bag holds the ${overfill} overfill`;
    const share = wanted.isPositive()
      ? ` (${percent(found.minus(wanted).over(wanted).abs())} ${found.isAbove(wanted) ? "more" : "less"})`
      : "";
    return {
      text: `The order wants ${ml(wanted)} in the finished container; ${where} holds ${ml(found)}${share}${how}${factorBetween(wanted, found)}. Mend the steps, or order the volume that they give.`,
    };
  },
});
