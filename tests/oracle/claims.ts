/** Writes figures beside a program: what its steps move and give, and what the finished container holds. */

import { countedIn, named } from "./facts.ts";
import { strengthIn } from "./faults.ts";
import { type Figure, figure, fits, writtenNumber } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import { holds, patientsOf } from "./patients.ts";
import type { Action, Condition, Program } from "./program.ts";
import type { Random } from "./random.ts";
import { type Carried, carriedOut, type Outcome } from "./run.ts";
import type { Shares } from "./vessel.ts";

const strengthUnits = {
  mass: ["mg/mL", "mcg/mL", "g/L", "mg/L"],
  moles: ["mmol/mL", "mmol/L"],
  activity: ["units/mL"],
} as const;

/** The figure as it is, where it is short; or rounded to four figures that count, from 1,000 on to a whole one. */
function stated(value: Fraction, unit: string, more: Partial<Figure> = {}): Figure {
  if (fits(value, unit)) return { ...more, unit, value };
  const number = writtenNumber({ value, unit });
  const isLong = number.against(Fraction.of(1000)) >= 0;
  return figure(isLong ? number.nearest(Fraction.one) : number.toFigures(4), unit, more);
}

/** @param rows where the order has a range: for which patients the finished container is told apart */
export function withClaims(program: Program, random: Random, rows: readonly Condition[] = []): Program {
  const outcomes = patientsOf(program).map((patient) => carriedOut(program, patient));
  const first = outcomes[0]!;
  const actions = program.actions.map((action, i) => withClaim(program, random, action, outcomes, i));
  const { holds: inIt } = first.top.one(program.final);
  const ranged = program.order.range !== undefined;
  const concentrations = ranged
    ? []
    : first.top.contents.drugs(inIt).map((drug) => strength(program, random, first, inIt, drug));
  const volume = first.top.contents.volume(inIt);
  const isStated = !ranged && random.chance(0.4) && fits(volume, "mL");
  const volumes = isStated ? [{ figure: { value: volume, unit: "mL" } }] : [];
  const preparation = ranged ? toldApart(program, random, outcomes, rows) : { concentrations, volumes };
  return { ...program, actions, preparation };
}

/** For each of the conditions, by the first patient for whom it holds. */
function toldApart(
  program: Program,
  random: Random,
  outcomes: readonly Carried[],
  rows: readonly Condition[],
): Program["preparation"] {
  const patients = patientsOf(program);
  const told = rows.map((when) => {
    const outcome = outcomes[patients.findIndex((patient) => holds(when, program, patient, undefined))]!;
    const { contents } = outcome.top;
    const { holds: inIt } = outcome.top.one(program.final);
    const value = contents.volume(inIt);
    return {
      concentrations: contents.drugs(inIt).map((drug) => ({ ...strength(program, random, outcome, inIt, drug), when })),
      volumes: fits(value, "mL") ? [{ figure: { value, unit: "mL" }, when }] : [],
    };
  });
  return {
    concentrations: told.flatMap((each) => each.concentrations),
    volumes: told.flatMap((each) => each.volumes),
  };
}

function withClaim(program: Program, random: Random, action: Action, outcomes: readonly Outcome[], i: number): Action {
  const steps = outcomes.map(({ steps }) => steps[i]!);
  let claimed: Action = action;
  const moved = steps.flatMap((step) => step.moved ?? []).sort((a, b) => a.against(b));
  const [least, most] = [moved[0], moved.at(-1)];
  const isMeasured = action.do !== "pool" && action.do !== "sample" && action.do !== "pass";
  if (least && most && isMeasured && random.chance(0.6)) {
    const unit = random.pick(
      ["mL", "mL", "mL", "L", "mcL"].filter((each) => fits(least, each) && fits(most, each)).concat("mL"),
    );
    if (fits(least, unit) && fits(most, unit)) {
      claimed = {
        ...claimed,
        moves: { value: least, unit },
        ...(most.is(least) ? {} : { movesMost: { value: most, unit } }),
      };
    }
  }
  const made = steps[0]!.made;
  if (
    made &&
    outcomes.length === 1 &&
    (action.do === "make-up" || action.do === "reconstitute" || action.do === "inject") &&
    !action.giving &&
    random.chance(0.5)
  ) {
    const drugs = outcomes[0]!.top.contents.drugs(made);
    const drug = drugs.length > 0 ? random.pick(drugs) : undefined;
    if (drug !== undefined) {
      const giving = strength(program, random, outcomes[0]!, made, drug, false).figure;
      claimed = { ...claimed, giving, ...(drugs.length > 1 || random.chance(0.2) ? { givingOf: drug } : {}) };
    }
  }
  return claimed;
}

function strength(
  program: Program,
  random: Random,
  outcome: Outcome,
  of: Shares,
  drug: string,
  ions = true,
): { drug: string; figure: Figure } {
  const { ion, salt } = named(program.drugs, drug);
  if (ion && ions && random.chance(0.4)) {
    const unit = ion.charge === 0 ? "mmol/L" : random.pick(["mmol/L", "mEq/L", "mmol/mL"]);
    const more = { ion: ion.name };
    return {
      drug,
      figure: stated(strengthIn(program, outcome, of, drug, { value: Fraction.one, unit, ...more })!, unit, more),
    };
  }
  const unit = random.pick(strengthUnits[countedIn(program, drug)]);
  const more = salt && random.chance(0.5) ? { as: salt.name } : {};
  const value = strengthIn(program, outcome, of, drug, { value: Fraction.one, unit, ...more })!;
  return { drug, figure: stated(value, unit, more) };
}

/** A dose that the shape leaves open is what comes out of its steps. */
export function withDose(program: Program): Program {
  if (program.order.doses.length > 0) return program;
  const { top } = carriedOut(program);
  const { holds } = top.one(program.final);
  const doses = top.contents.drugs(holds).map((drug) => {
    const unit = countedIn(program, drug) === "mass" ? "mg" : "units";
    return { drug, figure: stated(top.contents.amount(holds, drug), unit) };
  });
  return { ...program, order: { ...program.order, doses } };
}
