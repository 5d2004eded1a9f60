import { volumeForPatient } from "../../bench/order.ts";
import { holds, rowAt, rowsAt } from "../../bench/order-rows.ts";
import { happened, type Run } from "../../bench/run.ts";
import { thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, volumeOf } from "../../quantities/quantity.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { factorBetween } from "../factor-between.ts";
import { ml } from "../showing.ts";
import { slipsOf } from "../slips.ts";
import { broughtOf } from "./diluents.ts";
import { orderedVolume } from "./ordered.ts";

export const diluentVolumeDiffers = recipeCheck({
  name: "diluent-volume-differs",
  family: "volumes",
  severity: "error",
  title: "The ordered volume of diluent is not what the container holds",
  why: "The order and the materials speak of two different bags, so one of the concentrations is wrong.",
  source: "common practice",
  bad: example(
    ["    diluent-volume  100 mL", "    diluent-volume  250 mL"],
    ["sodium chloride 0.9 % 100 mL", "sodium chloride 0.9 %"],
  ),
  good: example(),
  *find({ recipe, runs }) {
    if (!recipe.order) return;
    for (const run of runs) {
      const method = rowAt(recipe.order.all("method"), run)?.slots.method.choice;
      if (run.overfill !== "label" || method === "undiluted") continue;
      const fluid = method === "build-from-empty" ? onlyDiluent(run) : undefined;
      if (method === "build-from-empty" && (!fluid || run.unknown)) continue;
      for (const { slots, when } of recipe.order.all("diluent-volume")) {
        const ordered = slots.volume;
        const wanted = volumeOf(ordered.quantity && volumeForPatient(ordered.quantity, run.point));
        if (!wanted) continue;
        if (when && holds(when, run.point, run.doses) !== true) continue;
        if (fluid !== undefined) {
          yield* built(fluid, wanted, ordered, run);
          continue;
        }
        // Of a batch one of each kind stands for all that come from the same shelf.
        for (const vessel of run.finals.filter((v, i, all) => all.findIndex((o) => o.stock === v.stock) === i)) {
          const fill = vessel.stock?.facts.one("fluid") && vessel.stock.facts.one("fill")?.slots.fill;
          if (!fill?.quantity || inBase(fill.quantity).equals(wanted)) continue;
          if (method === "withdraw-first" && isLeftOf(inBase(fill.quantity), wanted, vessel, run)) continue;
          yield {
            at: ordered,
            ordered: wanted,
            fluid: undefined,
            where: thingOrEach(vessel, run.finals, (other) => other.stock === vessel.stock),
            fill: inBase(fill.quantity),
            all: undefined,
          };
        }
      }
    }
  },
  say: ({ ordered, where, fill, fluid, all }) => ({
    text:
      fluid === undefined
        ? `The order uses ${ml(ordered)} of diluent; ${where} is filled with ${ml(fill)}. Correct the order, or take the bag that it asks for.`
        : `The order uses ${ml(ordered)} of diluent; ${ml(fill)} of ${fluid} go into ${where}${factorBetween(ordered, fill)}. ${all && agrees(all, ordered) ? `Where ${ml(ordered)} is all that it is to hold, write \`final-volume\`; otherwise mend the steps or the order` : "Mend the steps or the order"}.`,
  }),
});

/** The one diluent of the order; where it names several, each states its own volume. */
function onlyDiluent({ recipe, point, doses }: Run): string | undefined {
  const rows = rowsAt(recipe.order?.all("diluent") ?? [], { point, doses });
  const [only, second] = rows;
  return only && !second && !only.slots.volume ? only.slots.fluid.name : undefined;
}

/** What goes into containers that stood empty, against the order. A volume between two marks of a scale is told of the draw. */
function* built(fluid: string, wanted: Exact, at: Spot, run: Run) {
  for (const vessel of run.finals) {
    const found = broughtOf(fluid, vessel, run);
    const lost = lostOf(fluid, run);
    // What came in a dilution of the drug may be counted or not.
    if ([found, addedAlone(fluid, vessel, run)].some((each) => agrees(each, wanted) || agrees(each.plus(lost), wanted)))
      continue;
    if (slipsOf(run).changesVolumeOf(vessel)) continue;
    const where = thingOrEach(vessel, run.finals, (other) => broughtOf(fluid, other, run).equals(found));
    yield { at, ordered: wanted, fluid, fill: found, where, all: vessel.liquid.volume };
  }
}

function addedAlone(fluid: string, vessel: Vessel, { steps }: Run): Exact {
  return steps
    .flatMap(({ movements }) => movements)
    .filter(({ to, liquid }) => to === vessel && liquid.drugs.length === 0)
    .reduce((sum, { liquid }) => sum.plus(liquid.fluids.get(fluid) ?? Exact.zero), Exact.zero);
}

function lostOf(fluid: string, run: Run): Exact {
  return happened(run, "not-on-graduation")
    .filter(({ step }) => step.movements.some(({ liquid }) => liquid.drugs.length === 0 && liquid.fluids.has(fluid)))
    .reduce((sum, { data }) => sum.plus(data.asked).minus(data.reading), Exact.zero);
}

/** `diluent-volume 160 mL` of a bag of 250 mL: what the steps leave of it, where the order says at what volume it is to end. */
function isLeftOf(fill: Exact, ordered: Exact, vessel: Vessel, run: Run): boolean {
  if (orderedVolume(run, vessel) === undefined) return false;
  const out = run.steps.flatMap(({ movements }) => movements.filter((m) => m.from === vessel && m.how === "waste"));
  return out.reduce((left, { moved }) => left.minus(moved), fill).equals(ordered);
}
