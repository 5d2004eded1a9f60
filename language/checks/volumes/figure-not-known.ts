import type { DoseSlots } from "../../bench/dose-asked.ts";
import { happened, type Run } from "../../bench/run.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { Lookup } from "../../model/lookup.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { type Behind, behindStep, drawsBehind } from "../figures-behind.ts";
import { fallsInNoBand } from "../units/band-rows.ts";

export const figureNotKnown = recipeCheck({
  name: "figure-not-known",
  family: "volumes",
  severity: "error",
  title: "A figure that cannot be computed",
  why: "What rests on it is not judged.",
  source: "common practice",
  rows: [],
  bad: example(
    ["    method          add-to-bag", "    method          withdraw-first-with-overfill"],
    [
      "    needle       needle-18-gauge",
      "    needle       needle-18-gauge\n    waste        syringe-10mL\n    spare        needle-21-gauge",
    ],
    [
      "    inject syringe into bag\n",
      "    attach spare to waste\n    withdraw added-volume and overfill from bag using waste and discard\n    disinfect bag\n    inject syringe into bag\n",
    ],
  ),
  good: example(),
  happening: "figure-not-known",
  find: ({ run, lookup }) =>
    happened(run, "figure-not-known")
      // A dose that falls between the bands is told at the order, with the bands.
      // A drug that the library does not declare is told as that.
      .filter(({ step }) => !isDrugNotDeclared(step, lookup))
      .filter(({ data }) => !(data.figure === "dose" && run.doses.some((dose) => fallsInNoBand(dose, run))))
      .map((h) => ({
        at: h.spot,
        step: h.step,
        ...h.data,
        // That nothing is left of a dose may be the fault of any of the three.
        behind: h.data.figure.startsWith("rest of") ? [...behindStep(h.step, run), ...drawsOf(h.step, run)] : [],
      })),
  say: ({ figure, why, remedy, behind }) => ({
    text: `\`${figure}\` cannot be computed: ${why}. ${remedy ?? "State it in the order or the stock"}.`,
    related: behind,
  }),
});

function isDrugNotDeclared({ slots }: StepRun, lookup: Lookup): boolean {
  const named = (slots as DoseSlots).drug?.name;
  return named !== undefined && !lookup.find("drug", named);
}

function drawsOf({ slots }: StepRun, run: Run): Behind[] {
  const named = (slots as DoseSlots).drug?.name ?? (run.doses.length === 1 ? run.doses[0]!.drug : undefined);
  return named === undefined ? [] : drawsBehind(named, run);
}
