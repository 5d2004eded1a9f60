import type { orderInputs } from "../../bench/order.ts";
import { happened } from "../../bench/run.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { withoutFormula } from "./auc-formula-not-declared.ts";

/** The axis of a unit → the patient's figure that it counts by: below the line, or an exposure above it. */
const needs: Readonly<Record<string, { input: (typeof orderInputs)[number]; per: string; such: string }>> = {
  bodyWeight: { input: "weight", per: "kg of body weight", such: "60 kg" },
  area: { input: "body-surface", per: "m2 of body surface", such: "1.8 m2" },
  exposure: { input: "clearance", per: "AUC", such: "90 mL/min" },
};

export const perKgWithoutWeight = recipeCheck({
  name: "per-kg-without-weight",
  family: "units",
  severity: "error",
  title: "A dose by weight, body surface or clearance in an order that does not state it",
  why: "The dose cannot be computed, and each bench would take its own patient.",
  source: "common practice",
  bad: example(["dose            4 g per bag", "dose            50 mg/kg per bag"]),
  good: example(
    ["dose            4 g per bag", "dose            50 mg/kg per bag"],
    ["    infuse-over     4 h", "    infuse-over     4 h\n    weight          80 kg"],
  ),
  *find({ recipe, run, lookup }) {
    const { order } = recipe;
    // A step that draws the dose says at its own place that it cannot be computed.
    if (!order || happened(run, "figure-not-known").some(({ data }) => data.figure === "dose")) return;
    const measures = [
      ...order.all("dose").map((f) => f.slots.dose),
      ...order.all("additive").map((f) => f.slots.dose),
      ...order.all("target").map((f) => f.slots.dose),
      ...order.all("infuse-at").map((f) => f.slots.rate),
      ...order.all("diluent-volume").map((f) => f.slots.volume),
      ...order.all("final-volume").map((f) => f.slots.volume),
    ];
    for (const measure of measures) {
      for (const [axis, need] of Object.entries(needs)) {
        const isPer = measure?.quantity?.unit.parts.some(
          ({ row, power }) => row.axis === axis && (power < 0 || axis === "exposure"),
        );
        // Without a formula no clearance helps, which is told.
        if (isPer && axis === "exposure" && [...withoutFormula(recipe, lookup)].some(({ at }) => at === measure))
          continue;
        if (!measure || !isPer || order.one(need.input) || order.isUnread(need.input)) continue;
        yield { at: { start: measure.start, end: measure.end }, written: measure.written, ...need };
      }
    }
  },
  say: ({ written, input, per, such }) => ({
    text: `${written} is ${input === "clearance" ? "an exposure, from which a dose follows by the clearance" : `counted per ${per}`}, and the order states no \`${input}\`. Add \`${input}\` to the order, such as ${such}, or its range.`,
  }),
});
