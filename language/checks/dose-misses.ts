/**
 * Steps that draw another amount than ordered, where nothing but that amount is wrong: `draw 40 g` for an order of 4 g. What does not
 * fit the container, the syringe or the strength then follows from it, and is judged again once the amount is mended.
 */
import { amountOf, isRefusal } from "../bench/amounts.ts";
import type { OrderedDose } from "../bench/order-rows.ts";
import type { Run } from "../bench/run.ts";
import type { StepRun } from "../bench/step-run.ts";
import type { MeasureSlot, NameSlot } from "../model/slots.ts";
import { Exact } from "../quantities/exact.ts";
import { containerShare } from "./volumes/container-share.ts";

/**
 * Only where what arrives is at least double or at most half of the order, so that `dose-not-delivered` tells it whatever the site
 * tolerates; whether it stands as an error is for the caller to ask.
 */
export function amountsMissing(run: Run, isDoseWrong: (drug: string) => boolean): ReadonlySet<StepRun> {
  const found = new Set<StepRun>();
  for (const dose of run.doses) {
    if (isDoseWrong(dose.drug) || dose.byConcentration) continue;
    for (const step of missing(dose, run)) found.add(step);
  }
  return found;
}

function missing(dose: OrderedDose, run: Run): StepRun[] {
  const inKind = counted(dose.drug, run);
  const ordered = dose.given && inKind(dose.given, dose.as, dose.ion);
  const finals = run.finals.filter((vessel) => containerShare(dose, vessel, run) instanceof Exact);
  if (!ordered?.isPositive() || finals.length === 0) return [];
  const held = finals.map(({ liquid }) => liquid.amounts.get(dose.drug) ?? Exact.zero);
  const draws = withoutDilutions(run.steps.filter((step) => brings(dose.drug, step)));
  const all = ordered.times(Exact.of(finals.length));
  const asks = ({ slots, movements }: StepRun) => {
    const { amount, as, ion } = slots as unknown as { amount: MeasureSlot; as?: NameSlot; ion?: NameSlot };
    const into = new Set(movements.map(({ to }) => to));
    const each = inKind(amount.quantity!, as?.name, ion?.name);
    return { each, inAll: each?.times(Exact.of(into.size)) };
  };
  if (held.every((each) => each.isAtLeast(ordered.times(two))))
    return draws.filter((step) => isByAmount(step) && asks(step).inAll?.isAtLeast(all.times(two)));
  if (draws.length === 1 && held.every((each) => each.times(two).isAtMost(ordered)))
    return draws.filter((step) => isByAmount(step) && asks(step).each?.times(two).isAtMost(ordered));
  return [];
}

function brings(drug: string, { skipped, verb, movements }: StepRun): boolean {
  return !skipped && verb === "draw" && movements.some(({ liquid }) => liquid.amounts.get(drug)?.isPositive());
}

/** A draw into what is drawn from again makes a dilution: how much goes into that is no dose. */
function withoutDilutions(draws: readonly StepRun[]): StepRun[] {
  const sources = new Set(draws.flatMap(({ movements }) => movements.map(({ from }) => from)));
  return draws.filter(({ movements }) => !movements.some(({ to }) => sources.has(to)));
}

function isByAmount(step: StepRun): boolean {
  const { quantity } = (step.slots as { amount?: MeasureSlot }).amount ?? {};
  return quantity !== undefined && quantity.unit.dimension.key !== "volume";
}

function counted(drug: string, run: Run) {
  const kind = run.setup.kinds.get(drug);
  const substance = run.setup.drugs.get(drug)?.substance;
  return (quantity: Parameters<typeof amountOf>[0], as?: string, ion?: OrderedDose["ion"]): Exact | undefined => {
    const amount = kind && substance ? amountOf(quantity, kind, substance, as, ion) : undefined;
    return amount === undefined || isRefusal(amount) ? undefined : amount;
  };
}

const two = Exact.of(2);
