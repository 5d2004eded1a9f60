import { happened } from "../../bench/run.ts";
import { vesselsOf } from "../../bench/setup.ts";
import { thingName } from "../../bench/things.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { ml } from "../showing.ts";

export const liquidLeftInSyringe = recipeCheck({
  name: "liquid-left-in-syringe",
  family: "volumes",
  severity: "warning",
  title: "Liquid left in a syringe at the end",
  why: "What stays in the syringe does not reach the patient, or a filled syringe lies about unlabelled.",
  source: "common practice",
  bad: example(
    ["    inject syringe into bag\n", "    inject 8 mL from syringe into bag\n"],
    ["= 8 mL", "= 9 mL"],
    ["draw 4 g from", "draw 9 mL from"],
  ),
  good: example(),
  *find({ run }) {
    // Where it would have gone does not stand there, which is told.
    if (run.unknown || happened(run, "unknown-thing").length > 0) return;
    for (const group of run.groups.values()) {
      for (const vessel of vesselsOf(group)) {
        if (vessel.kind !== "syringe" || run.finalNames.has(vessel.name) || vessel.discarded) continue;
        const { volume, drugs } = vessel.liquid;
        if (!volume.isPositive() || drugs.length === 0) continue;
        const last = run.steps.findLast((s) => s.movements.some((m) => m.from === vessel || m.to === vessel));
        // A test sample stays in its syringe until it is sent.
        if (last && last.verb !== "sample") yield { at: last.step, vessel, volume };
      }
    }
  },
  say: ({ vessel, volume }) => ({
    text: `${ml(volume)} is left in ${thingName(vessel)} at the end. Inject it all, draw less, or discard the syringe.`,
  }),
});
