/** What is wrong with a program by the oracle's own reading: figures that do not come out, and what nobody can carry out. */
import { CannotBeDone } from "./bench-top.ts";
import { doseOf } from "./dose.ts";
import { amountOf, countedIn, displacementOf, named } from "./facts.ts";
import { type Figure, figure, measureOf, writtenNumber } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import { patientsOf, rowFigure } from "./patients.ts";
import type { Action, Condition, Patient, Program } from "./program.ts";
import { type Carried, carriedOut, type Outcome, type StepOutcome } from "./run.ts";
import type { Shares } from "./vessel.ts";

/** How far the site lets a dose lie from the order. */
const tolerance = Fraction.of("0.05");
const half = Fraction.of("0.5");

/** What rounding may take from a figure of few digits. */
const mostByRounding = Fraction.of("0.05");

/** A stated figure is right where it is what comes out, rounded as it is written, and rounded by little. */
export function isSo(stated: Figure, really: Fraction): boolean {
  const written = writtenNumber(stated);
  const places = written.decimal()?.split(".")[1]?.length ?? 0;
  const step = Fraction.ratio(1n, 10n ** BigInt(places));
  const number = writtenNumber({ value: really, unit: stated.unit });
  return number.is(written) || (number.nearest(step).is(written) && isWithin(number, written, mostByRounding));
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
    const patients = patientsOf(program);
    const outcomes = patients.map((patient) => carriedOut(program, patient));
    return [
      ...stockFaults(program),
      ...bandFaults(program),
      ...outcomes.flatMap((outcome) => outcome.faults),
      ...claimFaults(program, outcomes),
      ...outcomes.flatMap((outcome, i) => {
        if (outcome.broken) return [];
        return [
          ...rowFaults(program, outcome),
          ...resultFaults(outcome, patients[i]),
          ...overfillFaults(program, outcome, patients[i]),
        ];
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
    if (powder.label && powder.givesAbout) {
      const [labelled, really] = [
        powder.givesAbout.value,
        powder.content.value.over(powder.label.with.value.plus(taken)),
      ];
      const tenth = Fraction.of("1.1");
      if (labelled.against(really.times(tenth)) > 0 || really.against(labelled.times(tenth)) > 0)
        found.push(`the label of ${name} gives something else than its powder`);
    }
    if (taken.against(Fraction.zero) < 0) found.push(`the powder of ${name} takes up less than nothing`);
    if (powder.label && taken.over(half).against(powder.label.with.value) > 0)
      found.push(`the powder of ${name} takes up much too much room`);
    if (powder.label && powder.label.withdrawable.value.against(powder.label.with.value.plus(taken)) > 0) {
      found.push(`more can be drawn from ${name} than is in it`);
    }
    return found;
  });
}

/** Bands follow one upon the other, and each gives a dose of its own. */
function bandFaults({ bands }: Program): string[] {
  return bands.flatMap(({ rows }) =>
    rows.flatMap(({ from, below, gives }, i) => {
      const isUpsideDown = from.value.against(below.value) >= 0;
      const isOutside = gives.value.against(from.value) < 0 || gives.value.against(below.value) >= 0;
      const next = rows[i + 1];
      return isUpsideDown || isOutside || (next && !next.from.value.is(below.value))
        ? [`band ${i + 1} does not fit`]
        : [];
    }),
  );
}

function claimFaults(program: Program, outcomes: readonly Carried[]): string[] {
  return program.actions.flatMap((action, i) => {
    const steps = outcomes.flatMap(({ steps }) => steps[i] ?? []);
    if (steps.length < outcomes.length) return [];
    return claimFault(program, action, outcomes, steps).map((fault) => `step ${i + 1} (${action.do}): ${fault}`);
  });
}

function claimFault(
  program: Program,
  action: Action,
  outcomes: readonly Carried[],
  steps: readonly StepOutcome[],
): string[] {
  const found: string[] = [];
  if (action.moves) {
    const moved = steps.flatMap((step) => step.moved ?? []).sort((a, b) => a.against(b));
    if (moved.length === 0) return found;
    if (isWrong(action.moves, moved[0])) found.push(`moves ${moved[0]} mL`);
    else if (isWrong(action.movesMost ?? action.moves, moved.at(-1))) found.push(`moves up to ${moved.at(-1)} mL`);
  }
  if (action.giving) {
    const made = steps[0]!.made!;
    const drug = action.givingOf ?? outcomes[0]!.top.contents.drugs(made)[0];
    const really = drug && strengthIn(program, outcomes[0]!, made, drug, action.giving);
    if (!really || isWrong(action.giving, really)) found.push(`gives ${really} in a mL`);
  }
  return found;
}

/** What comes of the printed volumes where a container holds the least or the most beyond its label. */
function overfillFaults(program: Program, { volumes }: Carried, patient: Patient): string[] {
  if (!program.stocks.some(({ overfill }) => overfill)) return [];
  return (["least", "most"] as const).flatMap((filling) => {
    const outcome = carriedOut(program, patient, filling, volumes);
    return [...outcome.faults, ...(outcome.broken ? [] : doseFaults(outcome, patient))];
  });
}

function doseFaults({ top, program }: Carried, patient: Patient): string[] {
  const found: string[] = [];
  for (const { holds } of top.set(program.final)) {
    for (const { drug } of program.order.doses) {
      const dose = doseOf(program, drug, patient);
      if (dose.isZero) found.push(`no ${drug} is ordered`);
      const given = top.contents.amount(holds, drug);
      if (!isWithin(given, dose)) {
        found.push(`${given} ${countedIn(program, drug)} of ${drug} in place of ${dose}`);
      }
    }
  }
  return found;
}

function resultFaults(outcome: Carried, patient: Patient): string[] {
  const { program } = outcome;
  const { order, preparation } = program;
  const { contents } = outcome.top;
  const found = doseFaults(outcome, patient);
  const finals = outcome.top.set(program.final);
  for (const { holds } of finals) {
    for (const { drug, figure: stated } of preparation.concentrations) {
      const really = strengthIn(program, outcome, holds, drug, stated);
      if (isWrong(stated, really)) found.push(`${really} of ${drug} in a mL`);
    }
    const volume = contents.volume(holds);
    for (const { figure: stated } of preparation.volumes)
      if (isWrong(stated, volume)) found.push(`${volume} mL are in ${program.final}`);
    if (order.finalVolume && !rowFigure(order.finalVolume, patient).is(volume))
      found.push(`${volume} mL in place of the final volume`);
  }
  for (const { name, in: holder, at } of program.intermediates) {
    const last = program.actions.findLastIndex((action) => action.do !== "discard" && intoOf(action) === holder);
    const made = outcome.steps[last]?.made;
    for (const { drug, figure: stated } of made ? at : [])
      if (isWrong(stated, strengthIn(program, outcome, made!, drug, stated)))
        found.push(`${name} has another strength`);
  }
  return [...found, ...diluentFaults(outcome, patient), ...targetFaults(outcome)];
}

const intoOf = (action: Action): string | undefined => ("into" in action ? action.into : undefined);

/** The ordered volume of diluent is what the bag's label says; what is prepared beyond the order is the overage. */
function diluentFaults({ top, program }: Carried, patient: Patient): string[] {
  const { order, final, stocks, materials, actions } = program;
  const found: string[] = [];
  const held = materials.find(({ name }) => name === final)?.stock;
  const fill = held && named(stocks, held).fill;
  const [row] = order.diluentVolumes ?? [];
  const goesIn = (fluid: string) => top.contents.fluid(top.one(final).holds, fluid);
  const ordered = row && rowFigure(row, patient);
  if (ordered && fill && !fill.value.is(ordered)) found.push(`the bag is labelled ${fill.value} mL`);
  if (ordered && !fill && order.diluent && !goesIn(order.diluent).is(ordered))
    found.push(`other than ${ordered} mL go in`);
  for (const { fluid, figure: stated } of order.diluents ?? [])
    if (stated && !goesIn(fluid).is(stated.value)) found.push(`${goesIn(fluid)} mL of ${fluid} go in`);
  if (order.overage) {
    const wasted = top.contents.volume(top.wasted);
    if (actions.some(({ do: what }) => what === "discard") && !wasted.is(order.overage.value))
      found.push(`${wasted} mL are left over`);
  }
  return found;
}

function targetFaults({ top, program }: Carried): string[] {
  return (program.order.targets ?? []).flatMap(({ ion, figure: stated }) => {
    const charge = program.drugs.find((each) => each.ion?.name === ion)?.ion?.charge;
    // What an order asks in mEq is turned by declared charges alone.
    if (measureOf(stated.unit) === "equivalents" && !charge) return [`the charge of ${ion} is not declared`];
    const moles = measureOf(stated.unit) === "equivalents" ? stated.value.over(Fraction.of(charge!)) : stated.value;
    const held = top.contents.ion(top.one(program.final).holds, ion);
    return isWithin(held, moles) ? [] : [`${held} mmol of ${ion} in place of ${moles}`];
  });
}

function isWithin(given: Fraction, wanted: Fraction, share = tolerance): boolean {
  const off = given.minus(wanted);
  return (off.isPositive ? off : Fraction.zero.minus(off)).against(wanted.times(share)) <= 0;
}

/** Of lines for some patients one must hold for each patient, and no drug may come to whom it is not ordered. */
function rowFaults(whole: Program, { program, top }: Carried): string[] {
  const found: string[] = [];
  for (const name of new Set(whole.materials.map((each) => each.name))) {
    const held = program.materials.filter((each) => each.name === name).length;
    if (held > 1) found.push(`${held} lines of ${name} hold`);
  }
  const isOtherMeasure = conditionsOf(whole).some(({ of, ...ends }) => {
    const dose = whole.order.doses[0]!.figure.unit;
    return of === "dose" && Object.values(ends).some(({ unit }) => measureOf(unit) !== measureOf(dose));
  });
  if (isOtherMeasure) found.push("a condition measures something else than the dose");
  const rows = program.order.diluentVolumes;
  if (rows && rows.length !== 1) found.push(`${rows.length} volumes of diluent hold`);
  const { minimum, maximum } = program.order;
  if (minimum && maximum && minimum.value.against(maximum.value) > 0) found.push("the floor is above the cap");
  for (const { holds: inIt } of top.set(program.final)) {
    for (const drug of top.contents.drugs(inIt)) {
      if (program.order.doses.every((dose) => dose.drug !== drug))
        found.push(`${drug} is not ordered for this patient`);
    }
  }
  return found;
}

function conditionsOf({ materials, order, actions, preparation }: Program): Condition[] {
  const rows = [
    materials,
    order.doses,
    order.diluentVolumes ?? [],
    actions,
    preparation.concentrations,
    preparation.volumes,
  ];
  return rows.flat().flatMap(({ when }) => when ?? []);
}
