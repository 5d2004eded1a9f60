import { rowAt } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import { thingName, type Vessel } from "../../bench/things.ts";
import { inBase, type Quantity } from "../../quantities/quantity.ts";
import { recipeCheck } from "../check.ts";
import { isTold } from "../consequences.ts";
import { replaceText } from "../edits.ts";
import { example } from "../example.ts";
import { slipsOf } from "../slips.ts";
import { agreement, derivedLike, shownLike } from "./held-after.ts";
import { orderedVolume } from "./ordered.ts";

const form = "    form           solution-for-infusion\n";

export const statedVolumeDiffers = recipeCheck({
  name: "stated-volume-differs",
  family: "volumes",
  severity: "error",
  title: "The volume stated for the preparation is not what the steps give",
  why: "The volume is printed on the label, and the pump is set by it.",
  source:
    "Master formulation and compounding records (study page restating USP <795> and <797> 2023, February 2024, list of the master record): quantities and strength are recomputed",
  rows: ["record-elements mfr-calculations"],
  bad: example([form, `${form}    volume         100 mL\n`]),
  good: example([form, `${form}    volume         108 mL\n`]),
  *find({ recipe, runs }) {
    for (const run of runs) {
      if (run.unknown || run.overfill !== "label") continue;
      for (const preparation of recipe.preparations) {
        const stated = rowAt(preparation.facts.all("volume"), run)?.slots.volume;
        if (stated?.quantity?.unit.dimension.key !== "volume") continue;
        for (const vessel of run.finals.filter((v) => v.name === preparation.name.name)) {
          const { value } = derivedLike(stated.quantity, vessel.liquid, run);
          if (!value || agreement(value, stated.quantity, stated.decimals) === "agrees") continue;
          if (slipsOf(run).changesVolumeOf(vessel) || isOrdered(stated.quantity, vessel, run)) continue;
          yield { at: stated, written: stated.written, vessel, value, stated: stated.quantity };
        }
      }
    }
  },
  say: ({ written, vessel, value, stated }) => ({
    text: `States ${written}; the steps give ${shownLike(value, stated)} in ${thingName(vessel)}. Mend the figure or the steps.`,
  }),
  fixes({ at, value, stated }) {
    const shown = shownLike(value, stated);
    return [{ title: `State ${shown}`, edits: [replaceText(at, shown)] }];
  },
});

/** The volume stated is the one ordered, of which another volume is told. */
function isOrdered(stated: Quantity, vessel: Vessel, run: Run): boolean {
  const ordered = orderedVolume(run, vessel);
  return isTold("final-volume-differs", run) && ordered !== undefined && inBase(stated).equals(ordered);
}
