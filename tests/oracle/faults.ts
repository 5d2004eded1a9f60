/** What is wrong with a program by the oracle's own reading: figures that do not come out, and what nobody can carry out. */
import { CannotBeDone } from "./bench-top.ts";
import { doseOf } from "./dose.ts";
import { amountOf, countedIn, displacementOf, named } from "./facts.ts";
import { type Figure, figure, measureOf, writtenNumber } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Action, Program, Weight } from "./program.ts";
import { type Carried, carriedOut, type Outcome, type StepOutcome } from "./run.ts";
import type { Shares } from "./vessel.ts";

/** How far the site lets a dose lie from the order. */
const tolerance = Fraction.of("0.05");
const half = Fraction.of("0.5");

/** Every weight of the order's range, one after another; just one run where it has none. */
export function weightsOf({ order }: Program): Weight[] {
  if (!order.weight) return [undefined];
  const all: Fraction[] = [];
  for (let at = order.weight.from.value; at.against(order.weight.to.value) <= 0; at = at.plus(order.weight.step.value))
    all.push(at);
  return all;
}

/** A stated figure is right where it is what comes out, rounded as it is written. */
export function isSo(stated: Figure, really: Fraction): boolean {
  const written = writtenNumber(stated);
  const places = written.decimal()?.split(".")[1]?.length ?? 0;
  const step = Fraction.ratio(1n, 10n ** BigInt(places));
  return writtenNumber({ value: really, unit: stated.unit }).nearest(step).is(written);
}

/**
 * Amount in a mL in the measure of a stated strength: of the drug in its own form or in the salt named, or of an ion.
 * Undefined where nothing turns one into the other.
 */
export function strengthIn(
  program: Program,
  outcome: Outcome,
  of: Shares,
  drug: string,
  stated: Figure,
): Fraction | undefined {
  const { contents } = outcome.top;
  const volume = contents.volume(of);
  if (!volume.isPositive) return undefined;
  if (stated.ion !== undefined) {
    const ion = program.drugs.find((each) => each.ion?.name === stated.ion)?.ion;
    const moles = contents.ion(of, stated.ion).over(volume);
    return measureOf(stated.unit) === "equivalents" ? moles.times(Fraction.of(ion!.charge)) : moles;
  }
  const [above = ""] = stated.unit.split("/");
  const one = stated.unit.includes("/") ? figure(1, above) : { value: Fraction.one, unit: "g" };
  const { salt } = named(program.drugs, drug);
  const inBase = amountOf(program, drug, { ...one, as: stated.as ?? salt?.base ?? "" });
  if (!inBase) return undefined;
  return contents.amount(of, drug).over(volume).times(one.value).over(inBase);
}

const isWrong = (stated: Figure, really: Fraction | undefined): boolean =>
  really === undefined || !isSo(stated, really);

/** @returns a line for each fault; none where everything that is stated comes out */
export function faultsOf(program: Program): string[] {
  try {
    const weights = weightsOf(program);
    const outcomes = weights.map((weight) => carriedOut(program, weight));
    return [
      ...stockFaults(program),
      ...outcomes.flatMap((outcome) => outcome.faults),
      ...claimFaults(program, outcomes),
      ...outcomes.flatMap((outcome, i) => {
        if (outcome.broken) return [];
        return [...resultFaults(program, outcome, weights[i]), ...overfillFaults(program, outcome, weights[i])];
      }),
    ];
  } catch (stopped) {
    if (stopped instanceof CannotBeDone) return [stopped.message];
    throw stopped;
  }
}

function stockFaults({ stocks }: Program): string[] {
  return stocks.flatMap((stock) => {
    const { powder, fill, capacity, overfill, name } = stock;
    const found: string[] = [];
    const most = fill?.value.plus(overfill?.most.value ?? Fraction.zero);
    if (most && capacity && most.against(capacity.value) > 0) found.push(`${name} is filled beyond its capacity`);
    if (overfill && overfill.least.value.against(overfill.most.value) > 0)
      found.push(`${name} has its overfill upside down`);
    if (!powder) return found;
    const taken = displacementOf(stock);
    if (taken.against(Fraction.zero) < 0) found.push(`the powder of ${name} takes up less than nothing`);
    if (powder.label && taken.over(half).against(powder.label.with.value) > 0)
      found.push(`the powder of ${name} takes up much too much room`);
    if (powder.label && powder.label.withdrawable.value.against(powder.label.with.value.plus(taken)) > 0) {
      found.push(`more can be drawn from ${name} than is in it`);
    }
    return found;
  });
}

function claimFaults(program: Program, outcomes: readonly Outcome[]): string[] {
  return program.actions.flatMap((action, i) => {
    const steps = outcomes.flatMap(({ steps }) => steps[i] ?? []);
    if (steps.length < outcomes.length) return [];
    return claimFault(program, action, outcomes, steps).map((fault) => `step ${i + 1} (${action.do}): ${fault}`);
  });
}

function claimFault(
  program: Program,
  action: Action,
  outcomes: readonly Outcome[],
  steps: readonly StepOutcome[],
): string[] {
  const found: string[] = [];
  if (action.moves) {
    const moved = steps.map((step) => step.moved!).sort((a, b) => a.against(b));
    if (isWrong(action.moves, moved[0])) found.push(`moves ${moved[0]} mL`);
    else if (isWrong(action.movesMost ?? action.moves, moved.at(-1))) found.push(`moves up to ${moved.at(-1)} mL`);
  }
  if (action.giving) {
    const made = steps[0]!.made!;
    const [drug] = outcomes[0]!.top.contents.drugs(made);
    const really = drug && strengthIn(program, outcomes[0]!, made, drug, action.giving);
    if (!really || isWrong(action.giving, really)) found.push(`gives ${really} in a mL`);
  }
  return found;
}

/** What comes of the printed volumes where a container holds the least or the most beyond its label. */
function overfillFaults(program: Program, { volumes }: Carried, weight: Weight): string[] {
  if (!program.stocks.some(({ overfill }) => overfill)) return [];
  return (["least", "most"] as const).flatMap((filling) => {
    const outcome = carriedOut(program, weight, filling, volumes);
    return [...outcome.faults, ...(outcome.broken ? [] : doseFaults(program, outcome, weight))];
  });
}

function doseFaults(program: Program, { top }: Outcome, weight: Weight): string[] {
  const found: string[] = [];
  for (const { holds } of top.set(program.final)) {
    for (const { drug } of program.order.doses) {
      const dose = doseOf(program, drug, weight);
      if (dose.isZero) found.push(`no ${drug} is ordered`);
      const given = top.contents.amount(holds, drug);
      const off = given.minus(dose);
      if ((off.isPositive ? off : Fraction.zero.minus(off)).against(dose.times(tolerance)) > 0) {
        found.push(`${given} ${countedIn(program, drug)} of ${drug} in place of ${dose}`);
      }
    }
  }
  return found;
}

function resultFaults(program: Program, outcome: Outcome, weight: Weight): string[] {
  const { order, preparation } = program;
  const { contents } = outcome.top;
  const found = doseFaults(program, outcome, weight);
  const finals = outcome.top.set(program.final);
  for (const { holds } of finals) {
    for (const { drug, figure: stated } of preparation.concentrations) {
      const really = strengthIn(program, outcome, holds, drug, stated);
      if (isWrong(stated, really)) found.push(`${really} of ${drug} in a mL`);
    }
    const volume = contents.volume(holds);
    if (preparation.volume && isWrong(preparation.volume, volume)) found.push(`${volume} mL are in ${program.final}`);
    if (order.finalVolume && !order.finalVolume.value.is(volume))
      found.push(`${volume} mL in place of the final volume`);
  }
  for (const { name, in: holder, at } of program.intermediates) {
    const last = program.actions.findLastIndex((action) => action.do !== "discard" && intoOf(action) === holder);
    const made = outcome.steps[last]?.made;
    const drug = made && contents.drugs(made)[0];
    if (made && drug && isWrong(at, strengthIn(program, outcome, made, drug, at)))
      found.push(`${name} has another strength`);
  }
  return [...found, ...diluentFaults(program, outcome)];
}

const intoOf = (action: Action): string | undefined => ("into" in action ? action.into : undefined);

/** The ordered volume of diluent is what the bag's label says; what is prepared beyond the order is the overage. */
function diluentFaults({ order, final, stocks, materials, actions }: Program, { top }: Outcome): string[] {
  const found: string[] = [];
  const held = materials.find(({ name }) => name === final)?.stock;
  const fill = held && named(stocks, held).fill;
  if (order.diluentVolume && fill && !fill.value.is(order.diluentVolume.value))
    found.push(`the bag is labelled ${fill.value} mL`);
  if (order.overage) {
    const wasted = top.contents.volume(top.wasted);
    if (actions.some(({ do: what }) => what === "discard") && !wasted.is(order.overage.value))
      found.push(`${wasted} mL are left over`);
  }
  return found;
}
