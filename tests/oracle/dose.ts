/** The dose that the order asks for: worked out, given as a band or rounded, then capped and never below its floor. */

import { CannotBeDone } from "./bench-top.ts";
import { amountOf } from "./facts.ts";
import { type Figure, measureOf } from "./figure.ts";
import type { Fraction } from "./fraction.ts";
import { rowFigure } from "./patients.ts";
import type { DoseFact, Patient, Program } from "./program.ts";

/** In the measure that the drug's products are labelled in. */
export function doseOf(program: Program, drug: string, at: Patient): Fraction {
  const { order } = program;
  const ordered = order.doses.find((each) => each.drug === drug);
  if (!ordered) throw new CannotBeDone(`no dose of ${drug} is ordered`);
  const stated = inMeasure(program, ordered, ordered.figure);
  let dose = ordered.perEach ? stated.times(at!) : stated;
  if (order.byConcentration) dose = stated.times(rowFigure(order.finalVolume!, at));
  if (ordered.bands) dose = banded(program, ordered, dose);
  if (order.round) dose = rounded(dose, inMeasure(program, ordered, order.round.to), order.round.way);
  if (order.maximum) dose = dose.least(inMeasure(program, ordered, order.maximum));
  if (order.minimum) {
    const least = inMeasure(program, ordered, order.minimum);
    if (dose.against(least) < 0) dose = least;
  }
  return dose;
}

/** A figure beside the dose counts what the dose counts, where it does not name another form itself. */
function inMeasure(program: Program, { drug, figure }: DoseFact, stated: Figure): Fraction {
  const { ion, as } = figure;
  const found = amountOf(program, drug, {
    ...(ion === undefined ? {} : { ion }),
    ...(as === undefined ? {} : { as }),
    ...stated,
  });
  // A rule that measures something else than the dose is not applied, and told.
  if (!found || measureOf(stated.unit) !== measureOf(figure.unit))
    throw new CannotBeDone(`${stated.unit} of ${drug} cannot be worked out`);
  return found;
}

function banded(program: Program, ordered: DoseFact, dose: Fraction): Fraction {
  const bands = program.bands.find(({ name }) => name === ordered.bands);
  const end = (figure: Figure) => inMeasure(program, ordered, figure);
  const row = bands?.rows.find(({ from, below }) => dose.against(end(from)) >= 0 && dose.against(end(below)) < 0);
  if (!row) throw new CannotBeDone(`no band holds ${dose} of ${ordered.drug}`);
  return end(row.gives);
}

function rounded(dose: Fraction, step: Fraction, way: "to nearest" | "upward to" | "downward to"): Fraction {
  if (!step.isPositive) throw new CannotBeDone("the dose is rounded in steps of nothing");
  const nearest = dose.nearest(step);
  if (way === "upward to" && nearest.against(dose) < 0) return nearest.plus(step);
  if (way === "downward to" && nearest.against(dose) > 0) return nearest.minus(step);
  return nearest;
}
