/** Writes figures beside a program: what its steps move and give, and what the finished container holds. */

import { countedIn, named } from "./facts.ts";
import { strengthIn, weightsOf } from "./faults.ts";
import { type Figure, figure, fits, writtenNumber } from "./figure.ts";
import { Fraction } from "./fraction.ts";
import type { Action, Program } from "./program.ts";
import type { Random } from "./random.ts";
import { carriedOut, type Outcome } from "./run.ts";
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

export function withClaims(program: Program, random: Random): Program {
  const outcomes = weightsOf(program).map((weight) => carriedOut(program, weight));
  const first = outcomes[0]!;
  const actions = program.actions.map((action, i) => withClaim(program, random, action, outcomes, i));
  const { holds } = first.top.one(program.final);
  const ranged = program.order.weight !== undefined;
  const concentrations = ranged
    ? []
    : first.top.contents.drugs(holds).map((drug) => strength(program, random, first, holds, drug));
  const volume = first.top.contents.volume(holds);
  const isStated = !ranged && random.chance(0.4) && fits(volume, "mL");
  const preparation = { concentrations, ...(isStated ? { volume: { value: volume, unit: "mL" } } : {}) };
  return { ...program, actions, preparation };
}

function withClaim(program: Program, random: Random, action: Action, outcomes: readonly Outcome[], i: number): Action {
  const steps = outcomes.map(({ steps }) => steps[i]!);
  let claimed: Action = action;
  const moved = steps.flatMap((step) => step.moved ?? []).sort((a, b) => a.against(b));
  const [least, most] = [moved[0], moved.at(-1)];
  const isMeasured = action.do !== "pool" && action.do !== "sample";
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
    (action.do === "make-up" || action.do === "reconstitute") &&
    random.chance(0.5)
  ) {
    const drugs = outcomes[0]!.top.contents.drugs(made);
    if (drugs.length === 1 && !named(program.drugs, drugs[0]!).salt) {
      claimed = { ...claimed, giving: strength(program, random, outcomes[0]!, made, drugs[0]!, false).figure };
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
