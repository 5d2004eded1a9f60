import { amountOf, isRefusal } from "../../bench/amounts.ts";
import type { OrderedDose } from "../../bench/order-rows.ts";
import type { Run } from "../../bench/run.ts";
import { allOf } from "../../bench/spoken.ts";
import type { StepRun } from "../../bench/step-run.ts";
import type { MeasureSlot, NameSlot } from "../../model/slots.ts";
import { Exact } from "../../quantities/exact.ts";
import { inBase, type Quantity, showQuantity } from "../../quantities/quantity.ts";
import { agrees } from "../agreement.ts";
import { recipeCheck } from "../check.ts";
import { example } from "../example.ts";
import { howFarOff } from "../factor-between.ts";
import { agreement } from "./held-after.ts";
import { orderedAmount } from "./ordered.ts";

interface StatedAmount {
  amount: MeasureSlot;
  ion?: NameSlot;
  as?: NameSlot;
}

/**
 * The site's tolerance is for what is lost in measuring. A figure that the steps state and the order does not is no such loss, however
 * near it lies: one of the two was mistyped, or somebody rounded without saying so.
 */
export const amountNotAsOrdered = recipeCheck({
  name: "amount-not-as-ordered",
  family: "volumes",
  severity: "warning",
  title: "The steps take a slightly different amount than the order says",
  why: "Two figures stand for one dose: the label says the one, and the container holds the other.",
  source: "common practice",
  bad: example(
    ["    dose            4 g per bag", "    dose            4.1 g per bag"],
    ["Magnesium sulfate 4 g", "Magnesium sulfate 4.1 g"],
    ["magnesium-4g {", "magnesium-bag {"],
  ),
  good: example(),
  *find({ run }) {
    if (run.unknown) return;
    for (const dose of run.doses) {
      if (!dose.given || dose.byConcentration) continue;
      const holdings = holdingsOf(dose, run);
      if (!holdings.some((each) => isNearlyRight(each, run))) continue;
      const asked = askedAmounts(dose, run);
      if (asked.length === 0) continue;
      const alone = asked.filter(({ stated }) => containersOf(stated, holdings) !== undefined);
      for (const steps of alone.length > 0 ? alone.map((each) => [each]) : [asked]) {
        const count = containersOf(sumOf(steps.map(({ stated }) => stated)), holdings);
        if (count === undefined) continue;
        const { amount, quantity } = steps.at(-1)!;
        const taken = sumOf(steps.map((each) => inBase(each.quantity)));
        const ordered = inBase(dose.given).times(Exact.of(count));
        const inUnit = (value: Exact) => ({ value: value.over(quantity.unit.factor), unit: quantity.unit });
        if (agreement(inUnit(ordered).value, inUnit(taken), amount.decimals) === "agrees") continue;
        yield { at: amount, dose, given: dose.given, steps, count, ordered, taken, shown: showQuantity(inUnit(taken)) };
      }
    }
  },
  say({ dose, given, steps, count, ordered, taken, shown }) {
    const each = showQuantity(given);
    const all = showQuantity({ value: given.value.times(Exact.of(count)), unit: given.unit });
    const asked = count === 1 ? each : `${all} (${each} for each of ${count})`;
    return {
      text: `${takers(steps)} ${shown} of ${dose.drug}${howFarOff(ordered, taken)}; the order asks for ${asked}. Write the same figure in both, or say in the order how the dose is rounded.`,
      related: [{ at: dose, text: `the order: ${dose.measure.written}` }],
    };
  },
});

interface Asked {
  step: StepRun;
  amount: MeasureSlot;
  quantity: Quantity;
  /** In the base unit in which the run counts the drug. */
  stated: Exact;
}

/** Amounts of the drug that steps state as the order states the dose: of the same kind, and of the same form or ion. */
function askedAmounts({ drug, given, ion, as }: OrderedDose, run: Run): Asked[] {
  const kind = run.setup.kinds.get(drug);
  const substance = run.setup.drugs.get(drug)?.substance;
  if (!kind || !substance) return [];
  const formOf = (name: string | undefined) => (name === substance.base ? undefined : name);
  return run.steps.flatMap((step) => {
    const { amount, ion: ofIon, as: inForm } = step.slots as Partial<StatedAmount>;
    const quantity = amount?.quantity;
    if (step.skipped || !quantity || quantity.unit.dimension !== given!.unit.dimension) return [];
    if (ofIon?.name !== ion || formOf(inForm?.name) !== formOf(as)) return [];
    if (!step.movements.some(({ liquid }) => liquid.drugs.includes(drug))) return [];
    const stated = amountOf(quantity, kind, substance, as, ion);
    return isRefusal(stated) ? [] : [{ step, amount, quantity, stated }];
  });
}

interface Holding {
  found: Exact;
  wanted: Exact;
}

/** What each container that the dose is for holds of the drug, and what it should. */
function holdingsOf({ drug }: OrderedDose, run: Run): Holding[] {
  return run.finals.flatMap((vessel) => {
    const wanted = orderedAmount(drug, vessel, run);
    return wanted ? [{ found: vessel.liquid.amounts.get(drug) ?? Exact.zero, wanted }] : [];
  });
}

/** Off, and by less than the site's tolerance, from which on it is told as a dose that does not arrive. */
function isNearlyRight({ found, wanted }: Holding, { policy }: Run): boolean {
  return !agrees(found, wanted) && found.minus(wanted).abs().isAtMost(wanted.times(policy.tolerance.dose));
}

/** `Step 5 takes`, `Steps 5 and 9 take together`. */
function takers(steps: readonly Asked[]): string {
  const numbers = steps.map(({ step }) => String(step.number));
  return numbers.length === 1 ? `Step ${numbers[0]} takes` : `Steps ${allOf(numbers)} take together`;
}

function sumOf(values: readonly Exact[]): Exact {
  return values.reduce((sum, each) => sum.plus(each), Exact.zero);
}

/** For how many containers the stated amount is: all of it arrives in one, or in all together. Undefined where it does neither. */
function containersOf(stated: Exact, holdings: readonly Holding[]): number | undefined {
  if (holdings.some(({ found }) => agrees(found, stated))) return 1;
  const all = sumOf(holdings.map(({ found }) => found));
  return agrees(all, stated) ? holdings.length : undefined;
}
