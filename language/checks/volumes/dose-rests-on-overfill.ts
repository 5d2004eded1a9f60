import { holdsOverfill, mostFoundInBags } from "../../bench/overfill.ts";
import { type Run, runRecipe } from "../../bench/run.ts";
import { thingOrEach, type Vessel } from "../../bench/things.ts";
import type { Stock } from "../../model/declaration.ts";
import type { Spot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { recipeCheck } from "../check.ts";
import type { RecipeContext } from "../context.ts";
import { howFarOff } from "../factor-between.ts";
import { amount, percent } from "../showing.ts";
import { isNotKnown } from "../unread-facts.ts";
import { mixedInBagExample } from "./mixed-in-bag.ts";

interface Rests {
  at: Spot;
  /** The bag, and the step that takes a part of what was mixed in it. */
  bag: Vessel;
  stock: Stock;
  step: number;
  /** It comes with the drug in it, and a part is thrown away. */
  isReadyMade: boolean;
  /** The finished container whose dose it moves most. */
  where: string;
  drug: string;
  byLabel: string;
  beyond: string;
  off: string;
}

export const doseRestsOnOverfill = recipeCheck<Rests>({
  name: "dose-rests-on-overfill",
  family: "volumes",
  severity: "warning",
  title: "A dose rests on how much a bag holds, and the bag's overfill is not stated",
  why: "A bag holds more than its label says, so that a part of the mixture, measured by the label volume, brings too little.",
  source:
    "Overfill needs to be taken into account for IV chemotherapy (ISMP Canada, 2013): bags held 3 to 20 percent more than their label",
  bad: mixedInBagExample(),
  // 112 mL by the mean of what the bag holds beyond its label.
  good: mixedInBagExample(
    ["  capacity   150 mL\n", '  capacity   150 mL\n  overfill   3 mL to 5 mL  source guide "bags"\n'],
    ["final-volume    27 mL", "final-volume    28 mL"],
    ["  = 27 mL", "  = 28 mL"],
    ["at   37.04 mg/mL", "at   35.71 mg/mL"],
    ["concentration  37.04 mg/mL", "concentration  35.71 mg/mL"],
  ),
  *find(context) {
    const { run, policy } = context;
    if (run.unknown) return;
    for (const { at, bag, stock, step, isReadyMade } of partsOfMixtures(run)) {
      const presumed = runIfOverfilled(bag, context);
      if (presumed.unknown) continue;
      const moved = mostMoved(run, presumed);
      if (!moved || moved.share.isAtMost(policy.tolerance.dose)) continue;
      const { vessel, drug, wanted, found } = moved;
      const kind = run.setup.kinds.get(drug) ?? "mass";
      const held = (one: Vessel) => one.liquid.amounts.get(drug) ?? Exact.zero;
      yield {
        at,
        bag,
        stock,
        step,
        isReadyMade,
        drug,
        where: thingOrEach(vessel, run.finals, (other) => held(other).equals(wanted)),
        byLabel: amount(wanted, kind),
        beyond: amount(found, kind),
        off: howFarOff(wanted, found),
      };
    }
  },
  say({ bag, stock, step, isReadyMade, where, drug, byLabel, beyond, off }) {
    const what = isReadyMade
      ? `throws away a part of ${bag.name}, and ${stock.name.name} states no \`overfill\`, so how much stays in ${bag.name} is not known`
      : `takes a part of what was mixed in ${bag.name}, and ${stock.name.name} states no \`overfill\`, so the strength in ${bag.name} is not known`;
    const remedy = isReadyMade
      ? `Draw the dose from ${bag.name} by its volume`
      : "Dilute in an empty container with measured volumes";
    return {
      text: `Step ${step} ${what}. With ${percent(mostFoundInBags)} more in it than its label, as bags were found to hold, ${where} gets ${beyond} of ${drug} in place of ${byLabel}${off}. ${remedy}, or state the \`overfill\` of ${stock.name.name}.`,
      related: [{ at: { start: stock.head.start, end: stock.head.end, chunk: stock.chunk }, text: `the ${bag.kind}` }],
    };
  },
});

interface PartOfMixture {
  at: Spot;
  bag: Vessel;
  stock: Stock;
  step: number;
  isReadyMade: boolean;
}

/**
 * Where the first part is taken out of each bag or bottle in which a drug was mixed, or thrown away of one that comes ready made, so that
 * what stays is the dose; and which states no overfill.
 */
function partsOfMixtures({ steps }: Run): PartOfMixture[] {
  const found = new Map<string, PartOfMixture>();
  for (const { number, movements } of steps) {
    for (const { how, from, liquid, spot } of movements) {
      const stock = from?.stock;
      if (!from || !stock || found.has(from.name)) continue;
      if (from.kind !== "bag" && from.kind !== "bottle") continue;
      if (stock.facts.one("overfill") || isNotKnown(stock.facts, "overfill")) continue;
      const isReadyMade = how === "waste" && stock.facts.one("drug") !== undefined;
      if (isReadyMade || holdsOverfill(stock, liquid))
        found.set(from.name, { at: spot, bag: from, stock, step: number, isReadyMade });
    }
  }
  return [...found.values()];
}

/** The same volumes measured, from a bag that holds the most that bags were found to hold. */
function runIfOverfilled({ name }: Vessel, { recipe, run, lookup, policy }: RecipeContext): Run {
  return runRecipe(recipe, lookup, policy, {
    point: run.point,
    overfill: "label",
    presumed: new Set([name]),
    printed: run,
  });
}

interface Moved {
  vessel: Vessel;
  drug: string;
  wanted: Exact;
  found: Exact;
  share: Exact;
}

function mostMoved(run: Run, presumed: Run): Moved | undefined {
  let most: Moved | undefined;
  run.finals.forEach((vessel, k) => {
    for (const drug of vessel.liquid.drugs) {
      const wanted = vessel.liquid.amounts.get(drug);
      if (!wanted?.isPositive()) continue;
      const found = presumed.finals[k]?.liquid.amounts.get(drug) ?? Exact.zero;
      const share = found.minus(wanted).abs().over(wanted);
      if (!most || share.isAbove(most.share)) most = { vessel, drug, wanted, found, share };
    }
  });
  return most;
}
